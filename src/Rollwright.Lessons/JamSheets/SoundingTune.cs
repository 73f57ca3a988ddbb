using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Engraving.Figures;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Lessons.JamSheets;

/// <summary>What a break is played over, as it sounds.</summary>
internal static class SoundingTune
{
    /// <summary>The melody in the key that sounds; null where only the break is known.</summary>
    public static Tune? Of(Break played) => played.Tune?.To(played.Setting.SoundingKey.Tonic);

    /// <summary>Chords by part and bar, pickups left out.</summary>
    public static ImmutableArray<GridPart> Grid(Break played, NumberStyle numbers)
    {
        var (numbering, tonic) = (played.Numbering, played.Setting.SoundingKey.Tonic);
        var fifths = tonic.Fifths - played.Setting.Position.Tonic.Fifths;
        Chord? before = null;
        var bars = new Dictionary<int, ImmutableArray<GridChord>>();
        for (var i = 0; i < played.Bars.Length; i++)
        {
            var bar = played.Bars[i];
            var chords = ImmutableArray.CreateBuilder<GridChord>();
            if (before is { } goesOn && (bar.Chords.IsEmpty || bar.Chords[0].At > Fraction.Zero))
                chords.Add(Named(goesOn, Fraction.Zero, bar));
            foreach (var chord in bar.Chords)
                chords.Add(Named(chord.Chord.TransposeFifths(fifths), chord.At, bar));
            bars[i] = chords.ToImmutable();
            if (!bar.Chords.IsEmpty)
                before = bar.Chords[^1].Chord.TransposeFifths(fifths);
        }
        return
        [
            .. BreakForm
                .Of(played)
                .Select(part => new GridPart(
                    part.Name,
                    part.Times,
                    [
                        .. part.Phrases.SelectMany(phrase =>
                            phrase
                                .Bars.Where(bar => !numbering[bar].IsShortInFront)
                                .Select(bar => new GridBar(bars[bar], EndingOf(played, bar, phrase)))
                        ),
                    ]
                )),
        ];

        GridChord Named(Chord chord, Fraction at, BreakBar bar)
        {
            var number = ChordNumber.Of(chord, tonic, numbers);
            return new((at / bar.Length).ToDouble(), chord.ToString(), number.Degree, number.Kind);
        }
    }

    private static string EndingOf(Break played, int bar, Phrase phrase) =>
        phrase.Ending.Length > 0 && !played.Bars[bar].Marks.EndingStart.IsEmpty ? phrase.Ending : "";
}
