using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Arranging.Chording;

/// <summary>The chords of a key and how often they come, from <c>data/harmony.txt</c>.</summary>
public static class HarmonyTable
{
    private static readonly Lazy<ImmutableArray<Row>> BuiltIn = new(() =>
        Parse("harmony.txt", BuiltInData.Text("harmony.txt"))
    );

    public sealed record Row(Mode Mode, int Degree, ChordQuality Quality, double Share);

    /// <summary>Chords of a key with their shares; modes that fiddle tunes seldom have take those of their like.</summary>
    public static ImmutableArray<(Chord Chord, double Share)> Of(Key key)
    {
        var mode = key.Mode switch
        {
            Mode.Lydian => Mode.Major,
            Mode.Phrygian or Mode.Locrian => Mode.Minor,
            var known => known,
        };
        return
        [
            .. BuiltIn
                .Value.Where(row => row.Mode == mode)
                .Select(row => (new Chord(Name(key, row), row.Quality), row.Share)),
        ];
    }

    private static PitchName Name(Key key, Row row) => key.Spell(key.Tonic.PitchClass + row.Degree);

    public static ImmutableArray<Row> Parse(string file, string text)
    {
        var rows = ImmutableArray.CreateBuilder<Row>();
        foreach (var row in DataTable.Parse(file, text, "mode", "degree", "quality", "share", "source").Rows)
        {
            if (!Enum.TryParse<Mode>(row["mode"], true, out var mode))
                throw row.Wrong($"'{row["mode"]}' is not a mode");
            var quality = row["quality"] switch
            {
                "maj" => ChordQuality.Major,
                "m" => ChordQuality.Minor,
                "7" => ChordQuality.DominantSeventh,
                var other => throw row.Wrong($"'{other}' is none of maj, m, 7"),
            };
            rows.Add(new(mode, row.Whole("degree"), quality, row.Number("share")));
        }
        return rows.ToImmutable();
    }
}
