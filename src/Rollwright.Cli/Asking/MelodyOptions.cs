using System.CommandLine;
using System.Globalization;
using Rollwright.Cli.Files;
using Rollwright.Music.Metre;

namespace Rollwright.Cli.Asking;

/// <summary>Whether a melody is wanted, and what is known of it.</summary>
internal sealed class MelodyOptions
{
    private readonly Option<bool> melody = new("--melody")
    {
        Description = "The recording is one line alone (fiddle, whistle, voice): write it as a tune in ABC.",
    };

    private readonly Option<string> output = new("--output", "-o")
    {
        Description = "The file for the tune, with --melody; - is standard output.",
        DefaultValueFactory = _ => "-",
    };

    private readonly Option<double?> tempo = new("--tempo")
    {
        Description = "Beats a minute, where it is known: of the metre's beats, quarters where no metre is given.",
    };

    private readonly Option<string?> metre = new("--metre") { Description = "The metre, where it is known: 4/4, 6/8." };

    /// <param name="Output">Where the tune goes.</param>
    /// <param name="Tempo">Beats a minute; null is to be found.</param>
    /// <param name="Time">Null is to be found.</param>
    internal sealed record Asked(string Output, double? Tempo, TimeSignature? Time);

    public void AddTo(Command command)
    {
        command.Add(melody);
        command.Add(output);
        command.Add(tempo);
        command.Add(metre);
    }

    /// <summary>Null where no melody is wanted.</summary>
    /// <exception cref="RequestException">Something is asked for that needs --melody, or cannot be read.</exception>
    public Asked? Read(ParseResult parsed)
    {
        if (!parsed.GetValue(melody))
        {
            foreach (var option in (Option[])[output, tempo, metre])
                if (parsed.GetResult(option) is { Implicit: false })
                    throw new RequestException($"{option.Name} goes with --melody; give both");
            return null;
        }
        var beats = parsed.GetValue(tempo);
        if (beats is not (null or (>= 20 and <= 400)))
            throw new RequestException($"--tempo {beats}: give beats a minute from 20 to 400");
        return new(parsed.GetRequiredValue(output), beats, parsed.GetValue(metre) is { } text ? Time(text) : null);
    }

    private static TimeSignature Time(string text)
    {
        var parts = text.Split('/');
        return
            parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var beats)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var unit)
            && beats is >= 2 and <= 12
            && unit is 2 or 4 or 8
            ? new(beats, unit)
            : throw new RequestException($"--metre {text}: no metre that is known; write it as 4/4 or 6/8");
    }
}
