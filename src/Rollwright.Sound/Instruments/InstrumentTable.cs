using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Music.Pitches;
using Rollwright.Sound.Body;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Instruments;

/// <summary>Reads the instruments from the tables instruments, string-voices, body-modes and touches of <c>data/</c>.</summary>
public static class InstrumentTable
{
    private static readonly Lazy<ImmutableArray<InstrumentVoice>> Read = new(() =>
        Parse(
            BuiltInData.Text("instruments.txt"),
            BuiltInData.Text("string-voices.txt"),
            BuiltInData.Text("body-modes.txt"),
            BuiltInData.Text("touches.txt")
        )
    );

    /// <summary>The banjo first.</summary>
    public static ImmutableArray<InstrumentVoice> All => Read.Value;

    public static InstrumentVoice Banjo => All[0];

    /// <exception cref="ArgumentException">There is none of that name.</exception>
    public static InstrumentVoice Of(string name) =>
        All.FirstOrDefault(voice => voice.Name == name)
        ?? throw new ArgumentException(
            $"No instrument is called '{name}'; known are {string.Join(", ", All.Select(voice => voice.Name))}.",
            nameof(name)
        );

    /// <exception cref="DataException">A row is wrong, or an instrument lacks strings or a touch.</exception>
    public static ImmutableArray<InstrumentVoice> Parse(
        string instruments,
        string strings,
        string modes,
        string touches
    )
    {
        var strung = Strings(strings);
        var bodies = Modes(modes);
        var touched = Touches(touches);
        return
        [
            .. Rows(
                    "instruments.txt",
                    instruments,
                    "instrument scale yield along direct frets spread ring pan level source"
                )
                .Select(row =>
                {
                    var name = row["instrument"];
                    if (!strung[name].Any() || !touched[name].Any())
                        throw row.Wrong($"'{name}' has no string in string-voices.txt or no touch in touches.txt");
                    var frets = row["frets"].Split('-');
                    if (
                        frets.Length != 2
                        || !int.TryParse(frets[0], out var lowest)
                        || !int.TryParse(frets[1], out var highest)
                        || highest < lowest
                    )
                        throw row.Wrong("frets", "frets are the lowest and the highest, such as 0-4");
                    return new InstrumentVoice
                    {
                        Name = name,
                        Scale = Within(row, "scale", 50, 2_000),
                        // Beyond this six strings would take more from the bridge than arrives there.
                        Yield = Within(row, "yield", 0, 0.1),
                        Along = Within(row, "along", 0, 1),
                        Direct = Within(row, "direct", 0, 1),
                        LowestFret = lowest,
                        HighestFret = highest,
                        Spread = Within(row, "spread", 0, 100) / 1_000,
                        Ring = Within(row, "ring", 0.01, 60),
                        Pan = Within(row, "pan", -1, 1),
                        Level = Within(row, "level", -60, 60),
                        Strings = [.. strung[name]],
                        Body = [.. bodies[name]],
                        Touches = touched[name].ToImmutableDictionary(touch => touch.Finger, touch => touch.Touch),
                    };
                }),
        ];
    }

    private static ILookup<string, StringVoice> Strings(string text)
    {
        var voices = new List<(string Instrument, StringVoice Voice)>();
        const string columns = "instrument string open fast slow fast-halving slow-halving high bright thin source";
        foreach (var row in Rows("string-voices.txt", text, columns))
        {
            var next = voices.Count(voice => voice.Instrument == row["instrument"]) + 1;
            if (row.Whole("string") != next)
                throw row.Wrong($"strings stand in order; this row is string {next} of the {row["instrument"]}");
            voices.Add(
                (
                    row["instrument"],
                    new(
                        next,
                        row["open"] == "-" ? null : Key(row),
                        Positive(row, "fast"),
                        Positive(row, "slow"),
                        Positive(row, "fast-halving"),
                        Positive(row, "slow-halving"),
                        Positive(row, "high"),
                        Registers(row, "bright"),
                        Registers(row, "thin")
                    )
                )
            );
        }
        return voices.ToLookup(voice => voice.Instrument, voice => voice.Voice);
    }

    private static int Key(DataTable.Row row)
    {
        var text = row["open"];
        return
            text.Length > 1
            && PitchName.Parse(text.AsSpan(0, text.Length - 1)) is { } name
            && char.IsAsciiDigit(text[^1])
            ? new Pitch(name, text[^1] - '0').Midi
            : throw row.Wrong("open", $"'{text}' is no pitch; write it as E2, or - where the tuning says it");
    }

    private static ImmutableArray<double> Registers(DataTable.Row row, string column)
    {
        var values = ImmutableArray.CreateBuilder<double>();
        foreach (var text in row[column].Split('/'))
            values.Add(
                double.TryParse(text, out var hz) && hz > 0 ? hz : throw row.Wrong(column, $"'{text}' is no frequency")
            );
        return values.Count <= StringVoice.Registers.Length
            ? values.ToImmutable()
            : throw row.Wrong(
                column,
                $"at most {StringVoice.Registers.Length} values, for {string.Join(", ", StringVoice.Registers)} semitones above open"
            );
    }

    private static ILookup<string, BodyMode> Modes(string text)
    {
        var modes = new List<(string Instrument, BodyMode Mode)>();
        foreach (var row in Rows("body-modes.txt", text, "instrument hz q level side source"))
        {
            var name = row["instrument"];
            if (modes.Count(mode => mode.Instrument == name) == BodyMode.Most)
                throw row.Wrong($"a body has at most {BodyMode.Most} modes");
            modes.Add(
                (
                    name,
                    new(
                        Within(row, "hz", 20, 20_000),
                        Within(row, "q", 0.5, 1_000),
                        row.Number("level"),
                        Within(row, "side", -1, 1)
                    )
                )
            );
        }
        return modes.ToLookup(mode => mode.Instrument, mode => mode.Mode);
    }

    private static ILookup<string, (string Finger, Touch Touch)> Touches(string text) =>
        Rows("touches.txt", text, "instrument finger force from-bridge wander sharp scrape source")
            .ToLookup(
                row => row["instrument"],
                row =>
                    (
                        row["finger"],
                        new Touch(
                            Positive(row, "force"),
                            Positive(row, "from-bridge"),
                            Within(row, "wander", 0, 50),
                            Positive(row, "sharp"),
                            Within(row, "scrape", 0, 1)
                        )
                    )
            );

    private static ImmutableArray<DataTable.Row> Rows(string file, string text, string columns) =>
        DataTable.Parse(file, text, columns.Split(' ')).Rows;

    private static double Positive(DataTable.Row row, string column) =>
        row.Number(column) is > 0 and var value ? value : throw row.Wrong($"{column} must be more than 0");

    private static double Within(DataTable.Row row, string column, double least, double most) =>
        row.Number(column) is var value && value >= least && value <= most
            ? value
            : throw row.Wrong($"{column} is not from {least} to {most}");
}
