using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Json;

/// <summary>
/// Reads a break from JSON (docs/formats.md). What no value can hold is refused with line, column and remedy; what
/// hands cannot play is let through, for the checker to say so.
/// </summary>
public static class JsonReader
{
    /// <summary>Of a file; a break of a long tune is some hundred thousand.</summary>
    public const int MostBytes = 20_000_000;

    public static BreakReading Read(string text, string fileName)
    {
        if (text.Length > MostBytes)
            return BreakReading.Refused(
                fileName,
                1,
                1,
                $"the file is larger than {MostBytes / 1_000_000} MB",
                "give a break"
            );
        var bytes = Encoding.UTF8.GetBytes(text.TrimStart('\uFEFF'));
        try
        {
            return new(ReadBreak(JsonTree.Parse(bytes)), []);
        }
        catch (JsonException wrong)
        {
            var line = (int)(wrong.LineNumber ?? 0) + 1;
            var column = (int)(wrong.BytePositionInLine ?? 0) + 1;
            return BreakReading.Refused(
                fileName,
                line,
                column,
                "this is no JSON",
                "mend what stands here or just before"
            );
        }
        catch (InvalidOperationException)
        {
            // Text with half a surrogate pair, which is valid JSON and no valid text.
            return BreakReading.Refused(
                fileName,
                1,
                1,
                "a text holds a character that does not exist",
                "write it in UTF-8"
            );
        }
        catch (JsonFault fault)
        {
            var (line, column) = Place(bytes, fault.Offset);
            return BreakReading.Refused(fileName, line, column, fault.Message, fault.Remedy);
        }
    }

    private static (int Line, int Column) Place(byte[] bytes, long offset)
    {
        var before = bytes.AsSpan(0, (int)offset);
        var lineStart = before.LastIndexOf((byte)'\n') + 1;
        return (before.Count((byte)'\n') + 1, Encoding.UTF8.GetCharCount(before[lineStart..]) + 1);
    }

    private static Break ReadBreak(JsonTree tree)
    {
        var format = tree.Need("format");
        if (format.Text() != JsonNames.Format)
            throw new JsonFault(
                format.Offset,
                $"this is no {JsonNames.Format}",
                $"\"format\" must be \"{JsonNames.Format}\""
            );
        CheckVersion(tree);
        var bars = tree.Need("bars");
        var read = new Break
        {
            Title = tree.TextOr("title", "Untitled"),
            Composer = tree.TextOr("composer", ""),
            Setting = ReadSetting(tree.Need("setting")),
            Time = ReadTime(tree.Need("time")),
            Tempo = ReadTempo(tree.Need("tempo")),
            Swing = tree.Find("swing") is { } swing ? ReadSwing(swing) : null,
            Bars = bars.List(ReadBar),
            Spans = tree.Find("spans").List(ReadSpan),
            Tune = tree.Find("tune") is { } tune ? ReadTune(tune) : null,
        };
        CheckCount(bars, read.Bars.Length);
        if (read.Tune is { } given && given.Bars.Length != read.Bars.Length)
            throw new JsonFault(
                tree.Need("tune").Offset,
                "the tune has not as many bars as the break",
                "leave the tune out, or give it the same bars"
            );
        return read;
    }

    private static void CheckVersion(JsonTree tree)
    {
        var version = tree.Need("version");
        if (version.Whole(1, int.MaxValue) > JsonNames.Version)
            throw new JsonFault(
                version.Offset,
                $"version {version.Text} is newer than this program",
                "use a newer program"
            );
    }

    /// <summary>A break with what <see cref="JsonWriter.Remainder"/> carried beside it; null where the text cannot be read so.</summary>
    internal static Break? WithRemainder(Break read, string text)
    {
        try
        {
            var tree = JsonTree.Parse(Encoding.UTF8.GetBytes(text));
            CheckVersion(tree);
            var tune = tree.Find("tune") is { } given ? ReadTune(given) : null;
            return tune is not null && tune.Bars.Length != read.Bars.Length
                ? null
                : read with
                {
                    Spans = tree.Find("spans").List(ReadSpan),
                    Tune = tune,
                };
        }
        catch (Exception wrong) when (wrong is JsonException or JsonFault or InvalidOperationException)
        {
            return null;
        }
    }

    private static void CheckCount(JsonTree bars, int count)
    {
        if (count is < 1 or > AbcLimits.MostBars)
            throw new JsonFault(
                bars.Offset,
                $"{count} bars, where 1 to {AbcLimits.MostBars} are expected",
                "give a break of that size"
            );
    }

    private static Setting ReadSetting(JsonTree tree)
    {
        var tuning = tree.Need("tuning");
        var open = tuning.Need("open");
        var keys = open.List(key => key.Whole(12, 108));
        if (keys.Length != Neck.Strings)
            throw new JsonFault(open.Offset, $"{keys.Length} strings", "give the MIDI keys of strings 1 to 5");
        return new(
            new(tuning.Need("id").Text(), tuning.TextOr("name", ""), keys, tuning.TextOr("spelling", "")),
            tree.Need("capo").Whole(0, Neck.LastFret),
            tree.Need("position").Parsed(JsonNames.Key, "a key", "G major"),
            tree.Need("shift").Whole(-72, 72)
        );
    }

    private static TimeSignature ReadTime(JsonTree tree) => tree.Parsed(JsonNames.Time, "a metre", "4/4");

    private static Tempo ReadTempo(JsonTree tree) =>
        new(tree.Need("unit").Time(isZeroAllowed: false), tree.Need("perMinute").Number(1, 2000));

    private static Swing ReadSwing(JsonTree tree) =>
        Swing.Parse(tree.Text())
        ?? throw new JsonFault(tree.Offset, $"'{tree.Text}' is no swing", "write it as \"2:1\", or leave it out");

    private static BreakBar ReadBar(JsonTree tree)
    {
        var length = ReadLength(tree);
        return new()
        {
            Length = length,
            Time = ReadTime(tree.Need("time")),
            Marks = ReadMarks(tree.Find("marks")),
            Chords = ReadChords(tree, length),
            Strokes =
            [
                .. tree.Need("strokes")
                    .List(stroke => ReadStroke(stroke, length))
                    .OrderBy(s => s.At)
                    .ThenBy(s => s.String),
            ],
        };
    }

    private static Fraction ReadLength(JsonTree tree)
    {
        var length = tree.Need("length");
        var value = length.Time(isZeroAllowed: false);
        return value <= new Fraction(AbcLimits.LongestBar)
            ? value
            : throw new JsonFault(length.Offset, $"a bar longer than {AbcLimits.LongestBar} whole notes", "part it");
    }

    private static Stroke ReadStroke(JsonTree tree, Fraction bar)
    {
        var at = tree.Need("at");
        var stroke = new Stroke
        {
            At = at.Time(isZeroAllowed: true),
            Length = tree.Need("length").Time(isZeroAllowed: false),
            String = tree.Need("string").Whole(1, Neck.Strings),
            Fret = tree.Need("fret").Whole(0, 36),
            Right = tree.Find("right")?.Parsed<RightFinger>(Finger, "T, I or M", "T"),
            Slur = tree.Find("slur")?.Parsed(JsonNames.Slur, "a slur", "hammer-on"),
            Left = tree.Find("left")?.Whole(0, 4),
            IsMelody = tree.Flag("melody"),
        };
        return stroke.At < bar
            ? stroke
            : throw new JsonFault(at.Offset, "the stroke begins after its bar is over", "put it into the next bar");
    }

    private static RightFinger? Finger(string text) =>
        text switch
        {
            "T" => RightFinger.T,
            "I" => RightFinger.I,
            "M" => RightFinger.M,
            _ => null,
        };

    private static BarMarks ReadMarks(JsonTree? tree) =>
        tree is null
            ? BarMarks.None
            : new()
            {
                Part = tree.Find("part")?.Text(),
                RepeatStart = tree.Flag("repeatStart"),
                RepeatEnd = tree.Find("repeatEnd")?.Whole(0, Unfolding.MostPasses) ?? 0,
                EndingStart = tree.Find("endingStart").List(pass => pass.Whole(1, Unfolding.MostPasses)),
                EndingStop = tree.Flag("endingStop"),
                SectionEnd = tree.Flag("sectionEnd"),
            };

    private static ImmutableArray<ChordAt> ReadChords(JsonTree tree, Fraction bar) =>
        tree.Find("chords")
            .List(chord =>
            {
                var at = chord.Need("at");
                var time = at.Time(isZeroAllowed: true);
                if (time >= bar)
                    throw new JsonFault(
                        at.Offset,
                        "the chord begins after its bar is over",
                        "put it into the next bar"
                    );
                return new ChordAt(time, chord.Need("chord").Parsed(JsonNames.Chord, "a chord", "Em7"));
            });

    private static Span ReadSpan(JsonTree tree) =>
        new(
            tree.Need("kind").Parsed<SpanKind>(Kind, "roll, lick, tag or pinch", "roll"),
            tree.Need("name").Text(),
            tree.Need("bar").Whole(0, AbcLimits.MostBars),
            tree.Need("at").Time(isZeroAllowed: true),
            tree.Need("length").Time(isZeroAllowed: false)
        );

    private static SpanKind? Kind(string text)
    {
        foreach (var kind in Enum.GetValues<SpanKind>())
        {
            if (kind.ToString().Equals(text, StringComparison.OrdinalIgnoreCase))
                return kind;
        }
        return null;
    }

    private static Tune ReadTune(JsonTree tree)
    {
        var bars = tree.Need("bars");
        var tune = new Tune
        {
            Title = tree.TextOr("title", "Untitled"),
            OtherTitles = tree.Find("otherTitles").List(JsonValues.Text),
            Composer = tree.TextOr("composer", ""),
            Rhythm = tree.TextOr("rhythm", ""),
            Number = tree.Find("number")?.Whole(0, int.MaxValue) ?? 1,
            Key = tree.Need("key").Parsed(JsonNames.Key, "a key", "G major"),
            IsKeyGiven = tree.Find("keyGiven") is null || tree.Flag("keyGiven"),
            Time = ReadTime(tree.Need("time")),
            Tempo = tree.Find("tempo") is { } tempo ? ReadTempo(tempo) : null,
            Bars = bars.List(ReadTuneBar),
        };
        CheckCount(bars, tune.Bars.Length);
        return tune;
    }

    private static TuneBar ReadTuneBar(JsonTree tree)
    {
        var length = ReadLength(tree);
        return new()
        {
            Length = length,
            Time = ReadTime(tree.Need("time")),
            Key = tree.Need("key").Parsed(JsonNames.Key, "a key", "G major"),
            Marks = ReadMarks(tree.Find("marks")),
            Chords = ReadChords(tree, length),
            Notes = tree.Need("notes").List(ReadNote),
        };
    }

    private static Note ReadNote(JsonTree tree) =>
        new(
            tree.Need("at").Time(isZeroAllowed: true),
            tree.Need("length").Time(isZeroAllowed: false),
            tree.Need("pitch").Parsed(JsonNames.Pitch, "a pitch", "F#4"),
            tree.Flag("tied")
        );
}
