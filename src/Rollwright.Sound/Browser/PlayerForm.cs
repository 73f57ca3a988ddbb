using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Sound.Band;

namespace Rollwright.Sound.Browser;

/// <summary>The form of a break in the player's score: its bars in order of play, phrases, chords, and how it is counted in.</summary>
internal static class PlayerForm
{
    public static void Write(Utf8JsonWriter json, Break played)
    {
        var numbering = played.Numbering;
        var phrases = new PhraseNumbers([.. played.Bars.Select((bar, i) => (bar.Marks, numbering[i].IsShortInFront))]);
        var at = Fraction.Zero;
        json.WriteStartArray("bars");
        foreach (var index in played.Order)
        {
            var bar = played.Bars[index];
            json.WriteStartObject();
            json.WriteNumber("at", at.ToDouble());
            json.WriteNumber("length", bar.Length.ToDouble());
            json.WriteNumber("begins", (at - numbering[index].Missing).ToDouble());
            json.WriteStartArray("time");
            json.WriteNumberValue(bar.Time.Beats);
            json.WriteNumberValue(bar.Time.Unit);
            json.WriteEndArray();
            json.WriteNumber("bar", index);
            json.WriteString("name", numbering[index].Name);
            json.WriteString("words", WordsOf(played, numbering, index));
            json.WriteNumber("phrase", phrases.Of(index));
            json.WriteEndObject();
            at += bar.Length;
        }
        json.WriteEndArray();
        json.WriteNumber("length", at.ToDouble());
        WritePhrases(json, played, numbering, phrases);
        WriteChords(json, played);
        WriteCount(json, played);
    }

    private static void WritePhrases(Utf8JsonWriter json, Break played, BarNumbering numbering, PhraseNumbers phrases)
    {
        json.WriteStartArray("phrases");
        foreach (var phrase in Enumerable.Range(0, played.Bars.Length).GroupBy(phrases.Of))
        {
            json.WriteStartObject();
            json.WriteNumber("number", phrase.Key);
            json.WriteString("words", numbering.Words([.. phrase]));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteChords(Utf8JsonWriter json, Break played)
    {
        var start = Fraction.Zero;
        json.WriteStartArray("chords");
        foreach (var index in played.Order)
        {
            foreach (var chord in played.Bars[index].Chords)
            {
                json.WriteStartObject();
                json.WriteNumber("at", (start + chord.At).ToDouble());
                json.WriteString("name", chord.Chord.ToString());
                json.WriteEndObject();
            }
            start += played.Bars[index].Length;
        }
        json.WriteEndArray();
    }

    // One bar of clicks for each metre.
    private static void WriteCount(Utf8JsonWriter json, Break played)
    {
        json.WriteStartObject("count");
        foreach (var time in played.Bars.Select(bar => bar.Time).Distinct())
        {
            json.WriteStartArray(time.ToString());
            foreach (var click in Accompanist.Count(time))
                PlayerPart.WriteStroke(json, click);
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    private static string WordsOf(Break played, BarNumbering numbering, int index)
    {
        var bar = $"bar {numbering[index].Name} of {numbering.Last}";
        return PartOf(played, index) is { } part ? $"part {part}, {bar}" : bar;
    }

    private static string? PartOf(Break played, int index) =>
        played.Bars.Take(index + 1).LastOrDefault(bar => bar.Marks.Part is not null)?.Marks.Part;
}
