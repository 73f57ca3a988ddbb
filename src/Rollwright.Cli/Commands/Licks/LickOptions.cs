using System.CommandLine;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Tunings;
using Rollwright.Cli.Files;
using Rollwright.Music.Chords;

namespace Rollwright.Cli.Commands.Licks;

/// <summary>Options of several commands about licks, read with their remedies.</summary>
internal static class LickOptions
{
    public static Option<string?> Chord() =>
        new("--chord") { Description = "The chord it is played over, such as G, Em, D7." };

    public static Option<string?> Next() => new("--next") { Description = "The chord it leads to." };

    public static Option<string?> Role() => new("--role") { Description = $"One of {LickRoles.Known}." };

    public static Option<string?> Tuning() =>
        new("--tuning") { Description = $"One of {string.Join(", ", TuningTable.All.Select(tuning => tuning.Id))}." };

    public static Option<bool> Json() => new("--json") { Description = "Answer in JSON." };

    public static Chord? ChordOf(string? text, string option) =>
        text is null
            ? null
            : Music.Chords.Chord.Parse(text)
                ?? throw new RequestException($"{option}: '{text}' is not a chord such as G, Em, D7, F#m");

    public static LickRole? RoleOf(string? text) =>
        text is null
            ? null
            : LickRoles.Find(text) ?? throw new RequestException($"--role: '{text}' is none of {LickRoles.Known}");

    public static Tuning? TuningOf(string? id) =>
        id is null
            ? null
            : TuningTable.Find(id)
                ?? throw new RequestException(
                    $"--tuning: no tuning is called '{id}'; known are {string.Join(", ", TuningTable.All.Select(known => known.Id))}"
                );

    public static int? LevelOf(int? level) =>
        level is null or (>= 1 and <= 5) ? level : throw new RequestException($"--level {level}: a level is 1 to 5");
}
