using System.CommandLine;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Tunings;
using Rollwright.Cli.Files;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Cli.Asking;

/// <summary>What commands that arrange let people choose: key, tuning, capo, octave, style, level.</summary>
internal sealed class SettingOptions
{
    private readonly Option<string?> key = new("--key")
    {
        Description = "The key that shall sound, such as A or Em; the tune's own by default.",
    };
    private readonly Option<string?> tuning = new("--tuning")
    {
        Description =
            $"One of {string.Join(", ", TuningTable.All.Select(known => known.Id))}; the one that suits by default.",
    };
    private readonly Option<int?> capo = new("--capo")
    {
        Description = "Fret of the capo, 0 to 12; the one that suits by default.",
    };
    private readonly Option<string?> octave = new("--octave")
    {
        Description =
            "Where the melody lies: fiddle (at the fiddle's pitch), below (an octave below it), two-below, above; the one that suits by default.",
    };
    private readonly Option<string?> style = new("--style")
    {
        Description =
            $"One of {string.Join(", ", StyleTable.Solo.Select(known => known.Name))}; the one that suits by default.",
    };
    private readonly Option<int> level = new("--level")
    {
        Description = "1 (first year) to 5 (performer).",
        DefaultValueFactory = _ => 3,
    };

    public void AddTo(Command command)
    {
        foreach (var option in new Option[] { key, tuning, capo, octave, style, level })
            command.Options.Add(option);
    }

    /// <summary>Only what is done to the instrument: tuning and capo.</summary>
    public void AddInstrumentTo(Command command)
    {
        command.Options.Add(tuning);
        command.Options.Add(capo);
    }

    /// <summary>Only what concerns the hands: tuning, capo, level.</summary>
    public void AddHandsTo(Command command)
    {
        foreach (var option in new Option[] { tuning, capo, level })
            command.Options.Add(option);
    }

    /// <exception cref="RequestException">A value is none of those there are.</exception>
    public ArrangeOptions Read(ParseResult parsed)
    {
        var instrument = ReadInstrument(parsed);
        if (parsed.GetValue(level) is not (>= LevelTable.Lowest and <= LevelTable.Highest))
            throw new RequestException($"--level {parsed.GetValue(level)}: a level is 1 to 5");
        return new()
        {
            SoundingKey = parsed.GetValue(key) is { } text ? KeyOf(text) : null,
            Tuning = instrument.Tuning,
            Capo = instrument.Capo,
            Octave = OctaveOf(parsed.GetValue(octave)),
            Level = parsed.GetValue(level),
            Style = StyleOf(parsed.GetValue(style)),
        };
    }

    /// <returns>Null for what was not asked.</returns>
    /// <exception cref="RequestException">A value is none of those there are.</exception>
    public (Tuning? Tuning, int? Capo) ReadInstrument(ParseResult parsed) =>
        parsed.GetValue(capo) is < 0 or > 12
            ? throw new RequestException($"--capo {parsed.GetValue(capo)}: a capo is at fret 0 to 12")
            : (TuningOf(parsed.GetValue(tuning)), parsed.GetValue(capo));

    private static Tuning? TuningOf(string? id) =>
        id is null
            ? null
            : TuningTable.Find(id)
                ?? throw new RequestException(
                    $"--tuning: no tuning is called '{id}'; known are {string.Join(", ", TuningTable.All.Select(known => known.Id))}"
                );

    private static int? OctaveOf(string? name) =>
        name is null
            ? null
            : OctaveWords.Find(name)
                ?? throw new RequestException(
                    $"--octave: no octave is called '{name}'; known are {string.Join(", ", OctaveWords.All.Select(known => known.Name))}"
                );

    private static Style? StyleOf(string? name) =>
        name is null
            ? null
            : StyleTable.Solo.FirstOrDefault(known => known.Name == name)
                ?? throw new RequestException(
                    $"--style: no style is called '{name}'; known are {string.Join(", ", StyleTable.Solo.Select(known => known.Name))}"
                );

    private static Key KeyOf(string text)
    {
        var root = text.TrimEnd('m');
        var name = PitchName.Parse(root);
        return name is { } tonic && text.Length - root.Length <= 1
            ? new(tonic, text.EndsWith('m') ? Mode.Minor : Mode.Major)
            : throw new RequestException($"--key: '{text}' is not a key such as G, Bb, F#m");
    }
}
