using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Rollwright.Audio.Opus;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Files;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.Sound;
using Rollwright.Sound.Band;
using Rollwright.Sound.Playing;

namespace Rollwright.Cli.Asking;

/// <summary>What the command that sounds a break lets people choose.</summary>
internal sealed class SoundOptions
{
    private static readonly string BandNames = string.Join(", ", Ensemble.Accompanists);

    private readonly Option<string?> tempo = new("--tempo")
    {
        Description =
            "Units a minute, in the unit of the break's own tempo, such as 90; or with its unit, such as 1/4=120.",
    };
    private readonly Option<string?> band = new("--band")
    {
        Description = $"Who plays along, such as bass,guitar: of {BandNames}; or all.",
    };
    private readonly Option<int> countIn = new("--count-in")
    {
        Description = "Bars of click before the music, 0 to 2; a pickup comes at its place in the bar after them.",
    };
    private readonly Option<int?> times = new("--times")
    {
        Description = "How often it is played, 1 to 100; 1 by default.",
    };
    private readonly Option<string?> bars = new("--bars")
    {
        Description = "Only some bars, as they are counted on the page: 5 or 5-8; 0 is the pickup.",
    };
    private readonly Option<string?> phrase = new("--phrase")
    {
        Description =
            "Only a phrase of two bars, by its number on the page, 3, or by its part and number in it: A1, B3.",
    };
    private readonly Option<int?> restEvery = new("--rest-every")
    {
        Description = "The banjo plays so many bars, then rests as many while the band goes on; 1 to 16.",
    };
    private readonly Option<string[]> level = new("--level")
    {
        Description =
            $"dB by which a part is louder (or softer): banjo=2, bass=-3; also how the banjo plays melody, drone and fill, 0, -5.2 and -4.2 by default: drone=-12. May be given several times.",
        AllowMultipleArgumentsPerToken = true,
    };
    private readonly Option<bool> stems = new("--stems")
    {
        Description = "A file for each part instead of the mix, its name behind the file's: tune-bass.wav.",
    };
    private readonly Option<bool> mono = new("--mono") { Description = "One channel instead of two." };
    private readonly Option<string?> bits = new("--bits")
    {
        Description = "How a wav holds its numbers: 16, 24 or float; 16 by default.",
    };
    private readonly Option<int?> rate = new("--rate")
    {
        Description = "Frames a second of a wav: 44100 (by default) or 48000; opus has 48000.",
    };

    private Option[] All => [tempo, band, countIn, times, bars, phrase, restEvery, level, stems, mono, bits, rate];

    public void AddTo(Command command)
    {
        foreach (var option in All)
            command.Options.Add(option);
    }

    /// <exception cref="RequestException">One of them was given, but what is written is no sound.</exception>
    public void RefuseFor(ParseResult parsed, string path)
    {
        foreach (var option in All)
        {
            if (parsed.GetResult(option) is { Implicit: false })
                throw new RequestException(
                    $"{option.Name} is for sound; {path} is none: give -o a name that ends with .wav or .opus"
                );
        }
    }

    /// <param name="parsed">The command line.</param>
    /// <param name="played">What is to be sounded.</param>
    /// <param name="isOpus">Whether the file is to be Ogg Opus.</param>
    /// <exception cref="RequestException">An option cannot be; the message says what can.</exception>
    public SoundChoice Read(ParseResult parsed, Break played, bool isOpus)
    {
        var (from, to) = Part(parsed, played);
        var (levels, accents) = Levels(parsed);
        var options = new SynthOptions
        {
            Tempo = TempoOf(parsed, played.Tempo),
            Band = Band(parsed),
            CountIn = parsed.GetValue(countIn),
            TimesThrough = parsed.GetValue(times) ?? 1,
            From = from,
            To = to,
            RestEvery = parsed.GetValue(restEvery),
            Levels = levels,
            Accents = accents,
            Stereo = !parsed.GetValue(mono),
            SampleRate = Rate(parsed, isOpus),
        };
        return new(options, Encoding(parsed, isOpus), parsed.GetValue(stems));
    }

    private (Fraction From, Fraction? To) Part(ParseResult parsed, Break played) =>
        (parsed.GetValue(bars), parsed.GetValue(phrase)) switch
        {
            (null, null) => (Fraction.Zero, null),
            ({ } text, null) => PlayedPart.OfBars(text, played),
            (null, { } text) => PlayedPart.OfPhrase(text, played),
            _ => throw new RequestException("--bars and --phrase exclude each other; give one of them"),
        };

    private Tempo? TempoOf(ParseResult parsed, Tempo own)
    {
        if (parsed.GetValue(tempo) is not { } text)
            return null;
        var equals = text.IndexOf('=', StringComparison.Ordinal);
        var unit = equals < 0 ? own.Unit : UnitOf(text[..equals]);
        if (
            unit is { } known
            && Number(text.AsSpan(equals + 1)) is { } perMinute
            && perMinute is > 0 and <= SynthOptions.FastestTempo
        )
            return new(known, perMinute);
        throw new RequestException(
            $"--tempo {text}: a tempo is more than 0 and at most {SynthOptions.FastestTempo} units a minute, such as 90 (of {own.Unit} notes here) or 1/4=120"
        );
    }

    private static Fraction? UnitOf(string text)
    {
        var parts = text.Split('/');
        return
            parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var upper)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var lower)
            && upper is > 0 and <= 64
            && lower is > 0 and <= 64
            ? new(upper, lower)
            : null;
    }

    private ImmutableArray<string> Band(ParseResult parsed)
    {
        var text = parsed.GetValue(band);
        if (text is null or "none")
            return [];
        if (text == "all")
            return Ensemble.Accompanists;
        ImmutableArray<string> names =
        [
            .. text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries),
        ];
        return names.FirstOrDefault(name => !Ensemble.Accompanists.Contains(name)) is { } unknown
            ? throw new RequestException($"--band: '{unknown}' is not in the band; known are {BandNames}, or all")
            : names;
    }

    private (ImmutableDictionary<string, double> Levels, Accents Accents) Levels(ParseResult parsed)
    {
        var levels = ImmutableDictionary<string, double>.Empty;
        var accents = Accents.Usual;
        foreach (var text in parsed.GetValue(level) ?? [])
        {
            var equals = text.IndexOf('=', StringComparison.Ordinal);
            if (equals < 1 || Number(text.AsSpan(equals + 1)) is not { } decibels)
                throw new RequestException($"--level '{text}': write what and how many dB, such as bass=-3");
            switch (text[..equals])
            {
                case "melody":
                    accents = accents with { Melody = decibels };
                    break;
                case "drone":
                    accents = accents with { Drone = decibels };
                    break;
                case "fill":
                    accents = accents with { Fill = decibels };
                    break;
                case var name when name == "banjo" || Ensemble.Accompanists.Contains(name):
                    levels = levels.SetItem(name, decibels);
                    break;
                case var name:
                    throw new RequestException(
                        $"--level: nothing is called '{name}'; known are banjo, {BandNames}, melody, drone, fill"
                    );
            }
        }
        return (levels, accents);
    }

    private int Rate(ParseResult parsed, bool isOpus)
    {
        var asked = parsed.GetValue(rate);
        if (isOpus && asked is not null and not OpusWriter.Rate)
            throw new RequestException($"--rate {asked}: an opus file has {OpusWriter.Rate} frames a second");
        if (asked is not null and not (44_100 or 48_000))
            throw new RequestException($"--rate {asked}: the sample rate is 44100 or 48000");
        return asked ?? (isOpus ? OpusWriter.Rate : SynthOptions.UsualRate);
    }

    private WavEncoding Encoding(ParseResult parsed, bool isOpus)
    {
        var asked = parsed.GetValue(bits);
        if (isOpus && asked is not null)
            throw new RequestException("--bits is for wav; an opus file has none");
        return asked switch
        {
            null or "16" => WavEncoding.Pcm16,
            "24" => WavEncoding.Pcm24,
            "float" => WavEncoding.Float32,
            _ => throw new RequestException($"--bits {asked}: a wav holds 16, 24 or float"),
        };
    }

    private static double? Number(ReadOnlySpan<char> text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value
            : null;
}
