using System.Collections.Immutable;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Sound.Band;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Browser;

/// <summary>One part of the player's score: its instrument as it is set up, and what is struck on it.</summary>
internal static class PlayerPart
{
    /// <summary>Up to the first stroke.</summary>
    public static void Begin(Utf8JsonWriter json, InstrumentVoice voice, ImmutableArray<OpenString> open)
    {
        json.WriteStartObject();
        json.WriteString("name", voice.Name);
        json.WriteString("words", char.ToUpperInvariant(voice.Name[0]) + voice.Name[1..]);
        var gain = Math.Pow(10, voice.Level / 20);
        List(json, "sides", [gain * Side(-voice.Pan), gain * Side(voice.Pan)]);
        json.WriteStartObject("instrument");
        json.WriteNumber("yield", voice.Yield);
        json.WriteNumber("along", voice.Along);
        json.WriteNumber("direct", voice.Direct);
        json.WriteNumber("spread", voice.Spread);
        json.WriteNumber("ring", voice.Ring);
        json.WriteStartArray("strings");
        foreach (var own in voice.Strings)
            WriteString(json, own, open[own.String - 1], IsShort(voice, own) ? Neck.ShortStringStart : 0);
        json.WriteEndArray();
        json.WriteStartArray("body");
        foreach (var mode in voice.Body)
        {
            json.WriteStartObject();
            json.WriteNumber("hz", mode.Hz);
            json.WriteNumber("q", mode.Q);
            json.WriteNumber("level", mode.Level);
            json.WriteNumber("side", mode.Side);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartObject("touches");
        foreach (var (finger, touch) in voice.Touches.OrderBy(own => own.Key, StringComparer.Ordinal))
        {
            json.WriteStartObject(finger);
            json.WriteNumber("force", touch.Force);
            json.WriteNumber("fromBridge", touch.FromBridge);
            json.WriteNumber("wander", touch.Wander);
            json.WriteNumber("sharp", touch.Sharp);
            json.WriteNumber("scrape", touch.Scrape);
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteEndObject();
        json.WriteStartArray("strokes");
    }

    public static void End(Utf8JsonWriter json)
    {
        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <param name="json">Where it goes.</param>
    /// <param name="played">A stroke of the banjo.</param>
    /// <param name="at">When it is played, in whole notes.</param>
    public static void WriteStroke(Utf8JsonWriter json, PlayedStroke played, double at)
    {
        var stroke = played.Stroke;
        json.WriteStartObject();
        json.WriteNumber("at", at);
        json.WriteNumber("string", stroke.String);
        json.WriteNumber("fret", stroke.Fret);
        if (stroke.Right is { } right)
            json.WriteString("right", FingerName(right));
        if (stroke.Slur is { } slur)
            json.WriteString("slur", SlurNames.Word(slur));
        if (stroke.Left is { } left)
            json.WriteNumber("left", left);
        if (stroke.IsMelody)
            json.WriteBoolean("melody", true);
        json.WriteString("of", new StrokeName(played.Bar, played.Index).ToString());
        json.WriteEndObject();
    }

    /// <summary>A stroke of the band, whose seconds are whole notes.</summary>
    public static void WriteStroke(Utf8JsonWriter json, BandStroke stroke)
    {
        json.WriteStartObject();
        json.WriteNumber("at", stroke.Seconds);
        if (!stroke.Stops.IsEmpty)
            List(json, "stops", stroke.Stops.Select(own => (double)own));
        if (!stroke.Plucks.IsEmpty)
        {
            json.WriteStartArray("plucks");
            foreach (var (own, above) in stroke.Plucks)
                Pair(json, own, above);
            json.WriteEndArray();
            json.WriteNumber("strength", stroke.Strength);
        }
        json.WriteEndObject();
    }

    private static void WriteString(Utf8JsonWriter json, StringVoice voice, OpenString open, int starts)
    {
        json.WriteStartObject();
        json.WriteNumber("hz", open.Hz);
        json.WriteNumber("length", open.Length);
        json.WriteNumber("starts", starts);
        json.WriteNumber("fast", voice.Fast);
        json.WriteNumber("slow", voice.Slow);
        json.WriteNumber("fastHalving", voice.FastHalving);
        json.WriteNumber("slowHalving", voice.SlowHalving);
        json.WriteNumber("high", voice.High);
        Registers(json, "bright", voice.Bright);
        Registers(json, "thin", voice.Thin);
        json.WriteEndObject();
    }

    private static void Registers(Utf8JsonWriter json, string name, ImmutableArray<double> values)
    {
        json.WriteStartArray(name);
        for (var i = 0; i < values.Length; i++)
            Pair(json, StringVoice.Registers[i], values[i]);
        json.WriteEndArray();
    }

    private static bool IsShort(InstrumentVoice voice, StringVoice own) =>
        voice == InstrumentTable.Banjo && own.String == Neck.ShortString;

    private static string FingerName(RightFinger finger) =>
        finger switch
        {
            RightFinger.T => "thumb",
            RightFinger.I => "index",
            _ => "middle",
        };

    private static void Pair(Utf8JsonWriter json, double first, double second)
    {
        json.WriteStartArray();
        json.WriteNumberValue(first);
        json.WriteNumberValue(second);
        json.WriteEndArray();
    }

    private static void List(Utf8JsonWriter json, string name, IEnumerable<double> values)
    {
        json.WriteStartArray(name);
        foreach (var value in values)
            json.WriteNumberValue(value);
        json.WriteEndArray();
    }

    // Constant power, 1 in the middle, as on the stage of the mix.
    private static double Side(double towards) => Math.Sqrt(2) * Math.Sin(Math.PI / 4 * (1 + towards));
}
