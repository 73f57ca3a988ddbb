using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Tests;

/// <summary>What on a page stands where something else stands, though it should not.</summary>
internal static class Collisions
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
        InkKind.Phrase,
        InkKind.Spot,
        InkKind.ChordDiagram,
        InkKind.TuneLine,
        InkKind.Caption,
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
        InkKind.Tuplet,
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
        InkKind.Phrase,
        InkKind.Spot,
        InkKind.ChordDiagram,
        InkKind.TuneLine,
    ];

    // Hundredths of a point, so that touching edges are no collision.
    private const double Touch = -0.05;

    /// <summary>Signs that are read apart and do not stand apart.</summary>
    public static IEnumerable<string> OfSigns(Layout layout) =>
        Pairs(layout, ink => Apart.Contains(ink.Kind))
            .Where(pair => !BelongTogether(pair.One, pair.Other))
            .Select(pair => $"{pair.One}\ncollides with\n{pair.Other}");

    /// <summary>Lines of the music that pass through words.</summary>
    public static IEnumerable<string> OfLines(Layout layout) =>
        Pairs(layout, ink => Lettering.Contains(ink.Kind) || Lines.Contains(ink.Kind))
            .Where(pair => Lettering.Contains(pair.One.Kind) != Lettering.Contains(pair.Other.Kind))
            .Select(pair => $"{pair.One}\ncollides with\n{pair.Other}");

    /// <summary>Ink that is not wholly on the paper.</summary>
    public static IEnumerable<string> OfPaper(Layout layout) =>
        from page in layout.Pages
        let paper = new Box(0, 0, page.Width, page.Height)
        from ink in page.Inks
        where paper.With(ink.Box) != paper
        select $"{ink} stands on a page of {page.Width} × {page.Height}";

    private static IEnumerable<(Ink One, Ink Other)> Pairs(Layout layout, Func<Ink, bool> chosen)
    {
        foreach (var page in layout.Pages)
        {
            var inks = page.Inks.Where(chosen).OrderBy(ink => ink.Box.Left).ToList();
            for (var i = 0; i < inks.Count; i++)
            {
                for (var k = i + 1; k < inks.Count && inks[k].Box.Left < inks[i].Box.Right; k++)
                {
                    if (BoxesOf(inks[i]).Any(one => BoxesOf(inks[k]).Any(one.Overlaps)))
                        yield return (inks[i], inks[k]);
                }
            }
        }
    }

    // The parts of one sign, and heads of one stem: a third apart they share the space's height, a second its width.
    private static bool BelongTogether(Ink one, Ink other) =>
        (
            one.Kind == other.Kind
            && one.Kind
                is InkKind.PartLabel
                    or InkKind.Tempo
                    or InkKind.KeySignature
                    or InkKind.TuneLine
                    or InkKind.ChordDiagram
        )
        || (one.Kind == InkKind.TimeSignature && other.Kind == InkKind.TimeSignature)
        || (
            one.Kind == InkKind.NoteHead
            && other.Kind == InkKind.NoteHead
            && Math.Abs(one.Box.Left - other.Box.Left) < one.Box.Width * 1.1
            && (one.Box.Overlaps(other.Box.Grown(-0.12 * one.Box.Width)) is false || one.Box.Top != other.Box.Top)
        );

    // Lines of one sign leave room between them: a bracket, a frame.
    private static IEnumerable<Box> BoxesOf(Ink ink) =>
        ink is Rules rules
            ? rules.Segments.Select(segment => segment.BoxOf(rules.Thickness).Grown(Touch))
            : [ink.Box.Grown(Touch)];
}
