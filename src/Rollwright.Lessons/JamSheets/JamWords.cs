using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Words;
using Rollwright.Music.Chords;

namespace Rollwright.Lessons.JamSheets;

/// <summary>What the players of a jam are told, in short.</summary>
internal static class JamWords
{
    public static string Head(LessonPlan plan)
    {
        var (tune, tempo) = (plan.Tune, plan.Played.Tempo);
        var kind =
            tune.Kind.Length > 0
                ? $"{char.ToUpperInvariant(tune.Kind[0])}{tune.Kind[1..].ToLowerInvariant()} in"
                : "In";
        return $"{kind} {tune.Key}, {tune.Time}. Tempo: {tempo.UnitName} = {tempo.PerMinute:0}. Form: {tune.Form}, {tune.BarsPlayed} bars. Everything is written as it sounds.";
    }

    /// <summary>Who does what, a name and a sentence each.</summary>
    public static ImmutableArray<(string Who, string What)> Players(Break played, bool hasMelody, NumberStyle numbers)
    {
        var setting = played.Setting;
        var banjo =
            setting.Capo == 0
                ? $"no capo, {setting.Tuning.Name} tuning."
                : $"capo {setting.Capo}, {setting.Position.Tonic} position, {setting.Tuning.Name} tuning.";
        var one = numbers == NumberStyle.Roman ? "I" : "1";
        return
        [
            (
                "Order",
                "unless you agree otherwise the fiddle plays it first, then comes the banjo's break, then mandolin and guitar; all together the last time."
            ),
            ("Banjo's break", $"{Whole(played)} {Entry(played)}Behind it play softly, chords and bass alone."),
            ("Guitar", Guitar(setting.SoundingKey)),
            (
                "Fiddle and mandolin",
                hasMelody
                    ? "the melody is at pitch; behind others, chops off the beat."
                    : "chops off the beat behind others."
            ),
            ("Bass", $"the root of the chord on the beat; {one} is {setting.SoundingKey.Tonic}."),
            ("Banjo", banjo),
        ];
    }

    private static string Guitar(Music.Keys.Key key)
    {
        var ways = GuitarKeys.For(key);
        if (ways.IsEmpty)
            return "no open chords within five frets: closed chords.";
        return string.Join(
                ", or ",
                ways.Select(way =>
                    way.Capo == 0 ? $"no capo, {way.Shapes} chords" : $"capo {way.Capo} with {way.Shapes} chords"
                )
            ) + ".";
    }

    private static string Whole(Break played)
    {
        var parts = BreakForm.Of(played).SelectMany(part => Enumerable.Repeat(part.Name, part.Times));
        return $"once through, {string.Join(' ', parts)}.";
    }

    private static string Entry(Break played)
    {
        var first = played.Bars[0];
        if (!played.Numbering[0].IsShortInFront || first.Strokes.IsEmpty)
            return "It starts on the first beat. ";
        return $"It comes in before the first bar, on {new Counting(played).Of(0, first.Strokes[0].At)}. ";
    }
}
