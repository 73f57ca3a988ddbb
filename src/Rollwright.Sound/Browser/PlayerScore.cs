using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Sound.Band;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Playing;

namespace Rollwright.Sound.Browser;

/// <summary>
/// A break as the player in a browser reads it, in JSON: what is played in order of play, and every number of the string
/// model, so that none is written twice. <c>docs/player.md</c> says what it holds. Places are in whole notes.
/// </summary>
public static class PlayerScore
{
    public const string Format = "rollwright-player-score";

    /// <summary>Goes up whenever a reader of the version before would play something else.</summary>
    public const int Version = 1;

    /// <summary>
    /// What a page makes of the model's own level: the loudest of the demo tunes then reach half of full scale without the
    /// band (measured), so that there is room for it.
    /// </summary>
    private const double Gain = 2.2;

    // A second a whole note: what the band does in seconds is then in whole notes.
    private static readonly SynthOptions InWholes = new() { Tempo = new(new Fraction(1), 60) };

    // Nothing in a title can end the script element that holds it: < and its like are written as escapes.
    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.Default };

    /// <exception cref="SoundException">The break is too long to be sounded.</exception>
    public static byte[] Write(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Plain))
        {
            json.WriteStartObject();
            json.WriteString("format", Format);
            json.WriteNumber("version", Version);
            json.WriteString("title", played.Title);
            json.WriteStartObject("tempo");
            json.WriteNumber("perMinute", played.Tempo.PerMinute);
            json.WriteNumber("unit", played.Tempo.Unit.ToDouble());
            json.WriteString("unitName", played.Tempo.UnitName + "s");
            json.WriteEndObject();
            json.WriteNumber("gain", Gain);
            json.WriteNumber("seed", InWholes.Seed);
            PlayerForm.Write(json, played);
            WriteHands(json);
            WriteParts(json, played);
            json.WriteEndObject();
        }
        return stream.ToArray();
    }

    /// <summary>Of the banjo's part what is played in some bars, each time that they come: an array of its strokes alone.</summary>
    /// <param name="played">The whole break.</param>
    /// <param name="bars">Indices of written bars.</param>
    public static byte[] WriteBars(Break played, IReadOnlyCollection<int> bars)
    {
        ArgumentNullException.ThrowIfNull(played);
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Plain))
        {
            json.WriteStartArray();
            WriteBanjo(json, played, stroke => bars.Contains(stroke.Bar));
            json.WriteEndArray();
        }
        return stream.ToArray();
    }

    /// <summary>The same as text.</summary>
    public static string WriteText(Break played) => Encoding.UTF8.GetString(Write(played));

    private static void WriteHands(Utf8JsonWriter json)
    {
        json.WriteStartObject("hands");
        json.WriteNumber("contact", Hands.Contact);
        json.WriteNumber("slide", Hands.LongestSlide);
        json.WriteNumber("bend", Hands.Bend);
        json.WriteNumber("bendTime", Hands.BendTime);
        json.WriteNumber("comeDown", Hands.ComeDown);
        json.WriteNumber("lift", Hands.Lift);
        json.WriteNumber("liftTime", Hands.LiftTime);
        json.WriteEndObject();
        json.WriteStartObject("accents");
        json.WriteNumber("melody", Factor(Accents.Usual.Melody));
        json.WriteNumber("drone", Factor(Accents.Usual.Drone));
        json.WriteNumber("fill", Factor(Accents.Usual.Fill));
        json.WriteNumber("uneven", PickingHand.Unevenness);
        json.WriteNumber("softSlur", PickingHand.SoftSlur);
        json.WriteEndObject();
        json.WriteStartObject("strum");
        json.WriteNumber("contact", StrummingHands.Contact);
        json.WriteNumber("stopTime", StrummingHands.StopTime);
        json.WriteNumber("longRing", StrummingHands.LongRing);
        json.WriteNumber("uneven", StrummingHands.Unevenness);
        json.WriteEndObject();
    }

    private static void WriteBanjo(Utf8JsonWriter json, Break played, Predicate<PlayedStroke> isWanted)
    {
        var swung = SwungTime.Of(played);
        foreach (var stroke in played.Played())
        {
            if (isWanted(stroke))
                PlayerPart.WriteStroke(json, stroke, swung.At(stroke.At).ToDouble());
        }
    }

    private static void WriteParts(Utf8JsonWriter json, Break played)
    {
        json.WriteStartArray("parts");
        var banjo = InstrumentTable.Banjo;
        PlayerPart.Begin(json, banjo, banjo.OpenStringsIn(played.Setting));
        WriteBanjo(json, played, _ => true);
        PlayerPart.End(json);
        var once = Timeline.Of(played, InWholes);
        var twice = Timeline.Of(played, InWholes with { TimesThrough = 2 });
        foreach (var name in Ensemble.Accompanists)
        {
            var voice = InstrumentTable.Of(name);
            PlayerPart.Begin(json, voice, voice.OpenStrings);
            foreach (var stroke in Accompanist.Play(voice, once, new(played, once), playsMusic: true))
                PlayerPart.WriteStroke(json, stroke);
            // Where the whole comes again after a rest, the band plays through it.
            foreach (var stroke in Accompanist.Play(voice, twice, new(played, twice), playsMusic: true))
            {
                if (stroke.Seconds >= once.Seconds && stroke.Seconds < twice.Period)
                    PlayerPart.WriteStroke(json, stroke);
            }
            PlayerPart.End(json);
        }
        json.WriteEndArray();
    }

    private static double Factor(double decibels) => Math.Pow(10, decibels / 20);
}
