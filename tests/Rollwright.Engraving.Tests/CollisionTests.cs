using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Tests;

public class CollisionTests
{
    // What is read as a sign of its own: none of these may touch another of them.
    private static readonly HashSet<InkKind> Apart =
    [
        InkKind.Title,
        InkKind.Credit,
        InkKind.Heading,
        InkKind.Tempo,
        InkKind.Legend,
        InkKind.PageNumber,
        InkKind.Clef,
        InkKind.KeySignature,
        InkKind.TimeSignature,
        InkKind.BarNumber,
        InkKind.PartLabel,
        InkKind.RepeatCount,
        InkKind.Chord,
        InkKind.NoteHead,
        InkKind.Accidental,
        InkKind.Rest,
        InkKind.TabNumber,
        InkKind.SlurLetter,
        InkKind.RightFinger,
        InkKind.LeftFinger,
        InkKind.SpanName,
        InkKind.TabLetters,
        InkKind.MelodyLine,
        InkKind.Dot,
    ];

    // Lines that pass under heads and numbers, but never through words.
    private static readonly HashSet<InkKind> Lines =
    [
        InkKind.Stem,
        InkKind.Beam,
        InkKind.Flag,
        InkKind.BarLine,
        InkKind.LedgerLine,
        InkKind.Ending,
        InkKind.Slur,
        InkKind.Tie,
    ];

    private static readonly HashSet<InkKind> Lettering =
    [
        InkKind.Chord,
        InkKind.SlurLetter,
        InkKind.RightFinger,
        InkKind.LeftFinger,
        InkKind.SpanName,
        InkKind.BarNumber,
        InkKind.PartLabel,
        InkKind.RepeatCount,
        InkKind.Tempo,
        InkKind.Title,
        InkKind.Heading,
        InkKind.Legend,
    ];

    // Hundredths of a point, so that touching edges are no collision.
    private const double Touch = -0.05;

    [Fact]
    public void Signs_that_are_read_apart_stand_apart() =>
        Pages.Claim(
            (_, layout) =>
            {
                foreach (var (one, other) in Pairs(layout, ink => Apart.Contains(ink.Kind)))
                {
                    if (!BelongTogether(one, other))
                        Assert.Fail($"{one}\ncollides with\n{other}");
                }
            }
        );

    [Fact]
    public void No_line_of_the_music_passes_through_words() =>
        Pages.Claim(
            (_, layout) =>
            {
                foreach (
                    var (one, other) in Pairs(layout, ink => Lettering.Contains(ink.Kind) || Lines.Contains(ink.Kind))
                )
                {
                    if (Lettering.Contains(one.Kind) != Lettering.Contains(other.Kind))
                        Assert.Fail($"{one}\ncollides with\n{other}");
                }
            }
        );

    private static IEnumerable<(Ink One, Ink Other)> Pairs(Layout layout, Func<Ink, bool> chosen)
    {
        foreach (var page in layout.Pages)
        {
            var inks = page.Inks.Where(chosen).OrderBy(ink => ink.Box.Left).ToList();
            for (var i = 0; i < inks.Count; i++)
            {
                for (var k = i + 1; k < inks.Count && inks[k].Box.Left < inks[i].Box.Right; k++)
                {
                    // An ending's box holds what stands under its bracket.
                    if (inks[i] is Rules { Kind: InkKind.Ending } || inks[k] is Rules { Kind: InkKind.Ending })
                        continue;
                    if (inks[i].Box.Grown(Touch).Overlaps(inks[k].Box.Grown(Touch)))
                        yield return (inks[i], inks[k]);
                }
            }
        }
    }

    // The parts of one sign, and heads of one stem: a third apart they share the space's height, a second its width.
    private static bool BelongTogether(Ink one, Ink other) =>
        (one.Kind == other.Kind && one.Kind is InkKind.PartLabel or InkKind.Tempo or InkKind.KeySignature)
        || (one.Kind == InkKind.TimeSignature && other.Kind == InkKind.TimeSignature)
        || (
            one.Kind == InkKind.NoteHead
            && other.Kind == InkKind.NoteHead
            && Math.Abs(one.Box.Left - other.Box.Left) < one.Box.Width * 1.1
            && (one.Box.Overlaps(other.Box.Grown(-0.12 * one.Box.Width)) is false || one.Box.Top != other.Box.Top)
        );
}
