using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Engraving.Figures;
using Rollwright.Music.Tunes;

namespace Rollwright.Lessons.JamSheets;

/// <summary>What a jam sheet shows, and how small.</summary>
/// <param name="Melody">The melody, or what of it there is room for; null for none.</param>
/// <param name="Note">What was left out, in a sentence; empty for nothing.</param>
/// <param name="Scale">Of notes and chord boxes; 1 is best to read on a music stand.</param>
/// <param name="Columns">Of chord boxes, 1 or 2.</param>
internal sealed record SheetForm(Tune? Melody, string Note, double Scale, int Columns = 1)
{
    // A row of boxes is no higher than this, however much white there is (assumption): it would be read as two.
    private const double HighestBox = 36;

    /// <summary>How much higher the chord boxes are than their letters need, so that no white is left at the foot.</summary>
    public double Stretch { get; init; } = 1;

    /// <summary>Chord boxes in a row.</summary>
    public int Across(IReadOnlyCollection<GridPart> parts)
    {
        // Of more than two chords in a narrow box none could be read.
        var isCrowded = parts.Any(part => part.Bars.Any(bar => bar.Chords.Length > 2));
        var isLong = Columns > 1 || parts.Sum(part => (part.Bars.Length + 3) / 4) > 10;
        return isLong && !isCrowded ? 8 : 4;
    }

    /// <summary>The scale of the chord boxes.</summary>
    public double BoxScale => Columns > 1 ? Scale : Math.Min(1.15, Scale * 1.1);

    /// <summary>The same with boxes that take up the white that is left on its page.</summary>
    /// <param name="parts">What stands in the boxes.</param>
    /// <param name="white">Points.</param>
    public SheetForm Filling(IReadOnlyList<GridPart> parts, double white)
    {
        var across = Across(parts);
        var rows = Columns > 1 ? InTwo(parts, across).Max(Rows) : Rows([.. parts]);
        var height = ChordGrid.BoxHeight * BoxScale;
        return rows == 0
            ? this
            : this with
            {
                Stretch = Math.Max(1, Math.Min(HighestBox / height, 1 + (white / (rows * height)))),
            };

        int Rows(ImmutableArray<GridPart> some) => some.Sum(part => (part.Bars.Length + across - 1) / across);
    }

    // From the best to read to what can just be read on a music stand (assumption).
    private static readonly ImmutableArray<double> Scales = [1.3, 1.2, 1.1, 1, 0.92, 0.84, 0.76, 0.68, 0.6];
    private static readonly ImmutableArray<double> Small = [0.68, 0.6, 0.54];

    /// <summary>
    /// Ways to have it on one page, a row of them for each thing that is given up, in each from large to small: the whole melody;
    /// each part of it the first time that it comes; the first parts alone; none.
    /// </summary>
    public static IEnumerable<IEnumerable<SheetForm>> OnOnePage(Break played)
    {
        var tune = SoundingTune.Of(played);
        if (tune is not null)
        {
            yield return Scales.Select(scale => new SheetForm(tune, "", scale));
            var (parts, once) = (BreakForm.Of(played), Once(played, tune));
            if (once.Count < parts.Length)
                yield return Small.Select(scale =>
                    Of(once, "The melody of each part stands here the first time that it comes", scale)
                );
            for (var count = once.Count / 2; count > 0; count /= 2)
            {
                var first = once.Take(count).ToList();
                yield return Small.Select(scale =>
                    Of(first, "The melody is too long for one page and stops here", scale)
                );
            }
        }
        var without = tune is null ? "" : "The melody is too long for one page: chords and form alone.";
        yield return Scales.Select(scale => new SheetForm(null, without, scale));
        yield return Small.Select(scale => new SheetForm(null, without, scale, 2));

        SheetForm Of(List<Part> some, string words, double scale) =>
            new(MelodyOf(tune!, some), $"{words}: {Named(some)}.", scale, 2);
    }

    /// <summary>Parts in two columns that are about as high, in order.</summary>
    /// <param name="parts">In order.</param>
    /// <param name="across">Bars in a row.</param>
    public static IReadOnlyList<ImmutableArray<GridPart>> InTwo(IReadOnlyList<GridPart> parts, int across)
    {
        var half = parts.Sum(Rows) / 2;
        var (left, rows) = (0, 0);
        while (left < parts.Count && (left == 0 || rows + (Rows(parts[left]) / 2) < half))
            rows += Rows(parts[left++]);
        return left == parts.Count
            ?
            [
                [.. parts],
            ]
            :
            [
                [.. parts.Take(left)],
                [.. parts.Skip(left)],
            ];

        int Rows(GridPart part) => 2 * ((part.Bars.Length + across - 1) / across);
    }

    private static string Named(List<Part> parts) =>
        parts.Count == 1 ? parts[0].Name : $"{parts[0].Name} to {parts[^1].Name}";

    // Parts of which no earlier one has the same melody over the same chords.
    private static List<Part> Once(Break played, Tune tune)
    {
        var known = new HashSet<string>(StringComparer.Ordinal);
        return [.. BreakForm.Of(played).Where(part => known.Add(Music(part)))];

        string Music(Part part) =>
            string.Join(
                '|',
                part.Phrases.SelectMany(phrase => phrase.Bars)
                    .Select(bar => tune.Bars[bar])
                    .Select(bar =>
                        string.Join(' ', bar.Notes.Select(note => $"{note.At}:{note.Pitch}:{note.Length}"))
                        + string.Join(' ', bar.Chords.Select(chord => $"{chord.At}:{chord.Chord}"))
                    )
            );
    }

    private static Tune MelodyOf(Tune tune, List<Part> parts) =>
        tune with
        {
            Bars =
            [
                .. parts.SelectMany(part =>
                    part.Phrases.SelectMany(phrase => phrase.Bars)
                        .Select((bar, i) => i == 0 ? Labelled(tune.Bars[bar], part.Name) : tune.Bars[bar])
                ),
            ],
        };

    private static TuneBar Labelled(TuneBar bar, string part) => bar with { Marks = bar.Marks with { Part = part } };
}
