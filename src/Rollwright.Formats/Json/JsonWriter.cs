using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Json;

/// <summary>Writes a break with all that it holds as JSON; the form is described in docs/formats.md.</summary>
public static class JsonWriter
{
    private static readonly JsonWriterOptions Tree = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly JsonWriterOptions Leaf = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Write(Break written)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Tree))
        {
            json.WriteStartObject();
            json.WriteString("format", JsonNames.Format);
            json.WriteNumber("version", JsonNames.Version);
            json.WriteString("title", written.Title);
            Optional(json, "composer", written.Composer);
            WriteSetting(json, written.Setting);
            json.WriteString("time", written.Time.ToString());
            WriteTempo(json, written.Tempo);
            Optional(json, "swing", written.Swing?.ToString() ?? "");
            List(json, "bars", written.Bars, bar => WriteBar(json, bar));
            WriteRemainder(json, written);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>
    /// What of a break other formats have no place for, to be carried beside: names of rolls and licks, and the tune. Empty
    /// where there is neither.
    /// </summary>
    internal static string Remainder(Break written)
    {
        if (written.Spans.IsEmpty && written.Tune is null)
            return "";
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Leaf))
        {
            json.WriteStartObject();
            json.WriteNumber("version", JsonNames.Version);
            WriteRemainder(json, written);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void WriteRemainder(Utf8JsonWriter json, Break written)
    {
        if (!written.Spans.IsEmpty)
            List(json, "spans", written.Spans, span => OneLine(json, leaf => WriteSpan(leaf, span)));
        if (written.Tune is { } tune)
            WriteTune(json, tune);
    }

    private static void WriteSetting(Utf8JsonWriter json, Setting setting)
    {
        json.WriteStartObject("setting");
        json.WritePropertyName("tuning");
        OneLine(
            json,
            leaf =>
            {
                leaf.WriteString("id", setting.Tuning.Id);
                leaf.WriteString("name", setting.Tuning.Name);
                List(leaf, "open", setting.Tuning.Open, leaf.WriteNumberValue);
                leaf.WriteString("spelling", setting.Tuning.Spelling);
            }
        );
        json.WriteNumber("capo", setting.Capo);
        json.WriteString("position", setting.Position.ToString());
        json.WriteNumber("shift", setting.Shift);
        json.WriteEndObject();
    }

    private static void WriteTempo(Utf8JsonWriter json, Tempo tempo)
    {
        json.WritePropertyName("tempo");
        OneLine(
            json,
            leaf =>
            {
                leaf.WriteString("unit", tempo.Unit.ToString());
                leaf.WriteNumber("perMinute", tempo.PerMinute);
            }
        );
    }

    private static void WriteBar(Utf8JsonWriter json, BreakBar bar)
    {
        json.WriteStartObject();
        json.WriteString("length", bar.Length.ToString());
        json.WriteString("time", bar.Time.ToString());
        WriteMarks(json, bar.Marks);
        WriteChords(json, bar.Chords);
        List(json, "strokes", bar.Strokes, stroke => OneLine(json, leaf => WriteStroke(leaf, stroke)));
        json.WriteEndObject();
    }

    private static void WriteStroke(Utf8JsonWriter json, Stroke stroke)
    {
        json.WriteString("at", stroke.At.ToString());
        json.WriteString("length", stroke.Length.ToString());
        json.WriteNumber("string", stroke.String);
        json.WriteNumber("fret", stroke.Fret);
        if (stroke.Right is { } right)
            json.WriteString("right", right.ToString());
        if (stroke.Slur is { } slur)
            json.WriteString("slur", JsonNames.Of(slur));
        if (stroke.Left is { } left)
            json.WriteNumber("left", left);
        if (stroke.IsMelody)
            json.WriteBoolean("melody", true);
    }

    private static void WriteMarks(Utf8JsonWriter json, BarMarks marks)
    {
        if (marks == BarMarks.None)
            return;
        json.WritePropertyName("marks");
        OneLine(
            json,
            leaf =>
            {
                if (marks.Part is { } part)
                    leaf.WriteString("part", part);
                if (marks.RepeatStart)
                    leaf.WriteBoolean("repeatStart", true);
                if (marks.RepeatEnd != 0)
                    leaf.WriteNumber("repeatEnd", marks.RepeatEnd);
                if (!marks.EndingStart.IsEmpty)
                    List(leaf, "endingStart", marks.EndingStart, leaf.WriteNumberValue);
                if (marks.EndingStop)
                    leaf.WriteBoolean("endingStop", true);
                if (marks.SectionEnd)
                    leaf.WriteBoolean("sectionEnd", true);
            }
        );
    }

    private static void WriteChords(Utf8JsonWriter json, IReadOnlyCollection<ChordAt> chords)
    {
        if (chords.Count == 0)
            return;
        List(
            json,
            "chords",
            chords,
            chord =>
                OneLine(
                    json,
                    leaf =>
                    {
                        leaf.WriteString("at", chord.At.ToString());
                        leaf.WriteString("chord", chord.Chord.ToString());
                    }
                )
        );
    }

    private static void WriteSpan(Utf8JsonWriter json, Span span)
    {
        json.WriteString("kind", span.Kind.ToString().ToLowerInvariant());
        json.WriteString("name", span.Name);
        json.WriteNumber("bar", span.Bar);
        json.WriteString("at", span.At.ToString());
        json.WriteString("length", span.Length.ToString());
    }

    private static void WriteTune(Utf8JsonWriter json, Tune tune)
    {
        json.WriteStartObject("tune");
        json.WriteString("title", tune.Title);
        if (!tune.OtherTitles.IsEmpty)
            List(json, "otherTitles", tune.OtherTitles, json.WriteStringValue);
        Optional(json, "composer", tune.Composer);
        Optional(json, "rhythm", tune.Rhythm);
        json.WriteNumber("number", tune.Number);
        json.WriteString("key", tune.Key.ToString());
        // Only where it is not: most tunes name their key.
        if (!tune.IsKeyGiven)
            json.WriteBoolean("keyGiven", false);
        json.WriteString("time", tune.Time.ToString());
        if (tune.Tempo is { } tempo)
            WriteTempo(json, tempo);
        List(json, "bars", tune.Bars, bar => WriteTuneBar(json, bar));
        json.WriteEndObject();
    }

    private static void WriteTuneBar(Utf8JsonWriter json, TuneBar bar)
    {
        json.WriteStartObject();
        json.WriteString("length", bar.Length.ToString());
        json.WriteString("time", bar.Time.ToString());
        json.WriteString("key", bar.Key.ToString());
        WriteMarks(json, bar.Marks);
        WriteChords(json, bar.Chords);
        List(json, "notes", bar.Notes, note => OneLine(json, leaf => WriteNote(leaf, note)));
        json.WriteEndObject();
    }

    private static void WriteNote(Utf8JsonWriter json, Note note)
    {
        json.WriteString("at", note.At.ToString());
        json.WriteString("length", note.Length.ToString());
        json.WriteString("pitch", note.Pitch.ToString());
        if (note.TiedFromBefore)
            json.WriteBoolean("tied", true);
    }

    private static void Optional(Utf8JsonWriter json, string name, string text)
    {
        if (text.Length > 0)
            json.WriteString(name, text);
    }

    private static void List<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
            write(item);
        json.WriteEndArray();
    }

    // Small objects stand on one line each, so that a person can read and change a break.
    private static void OneLine(Utf8JsonWriter json, Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var leaf = new Utf8JsonWriter(stream, Leaf))
        {
            leaf.WriteStartObject();
            write(leaf);
            leaf.WriteEndObject();
        }
        json.WriteRawValue(stream.ToArray());
    }
}
