using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Lattice;

/// <summary>Prices of every string and fret at one step in one way of playing, so that events only add them up.</summary>
public sealed class NoteTable
{
    private const int Frets = Neck.LastFret + 1;

    private readonly int[] price = new int[5 * Frets];
    private readonly int[] missing = new int[5 * Frets];
    private readonly bool[] melody = new bool[5 * Frets];
    private readonly StepPlace place;
    private readonly NotePrice notes;
    private readonly int[] byFinger = new int[3 * (Neck.Strings + 1)];

    public NoteTable(StepPlace place, StepPlace? next, NotePrice notes, Setting setting, int highestFret)
    {
        (this.place, this.notes) = (place, notes);
        Missed = notes.Missed(place);
        for (var s = 1; s <= Neck.Strings; s++)
        {
            foreach (var finger in Enum.GetValues<RightFinger>())
            {
                var played = new Sum();
                notes.Finger(ref played, place, finger, s);
                byFinger[((int)finger * (Neck.Strings + 1)) + s] = played.Total;
            }
            for (var fret = 0; fret <= (s == Neck.ShortString ? 0 : highestFret); fret++)
            {
                var at = At(s, fret);
                var key = setting.Tuning.KeyOf(s, fret);
                var sum = new Sum();
                notes.Of(ref sum, place, next, s, fret);
                price[at] = sum.Total;
                missing[at] = notes.Missing(place, key);
                melody[at] = place.Onset == key;
            }
        }
    }

    /// <summary>Price of silence where the tune has a note at the step.</summary>
    public int Missed { get; }

    /// <summary>Prices of every event's notes under every shape, what is missed of the tune included.</summary>
    /// <param name="prices">Takes them at [event * width + shape].</param>
    /// <param name="shapes">The shapes.</param>
    /// <param name="width">Their number, padded; the padding is impossible.</param>
    public void Lay(Span<int> prices, HandShape[] shapes, int width)
    {
        Span<int> places = stackalloc int[(Neck.Strings + 1) * shapes.Length];
        for (var s = 1; s <= Neck.Strings; s++)
        {
            for (var l = 0; l < shapes.Length; l++)
                places[(s * shapes.Length) + l] = At(s, shapes[l].FretOn(s));
        }
        for (var e = 0; e < RightEvent.All.Length; e++)
        {
            var row = prices.Slice(e * width, width);
            row[shapes.Length..].Fill(MovePrice.Impossible);
            Lay(row[..shapes.Length], RightEvent.All[e], places);
            if (notes.HasPairs && RightEvent.All[e].IsPinch)
                AddPairs(row, RightEvent.All[e], shapes);
        }
    }

    private void Lay(Span<int> row, RightEvent happening, ReadOnlySpan<int> places)
    {
        row.Fill(Missed);
        Span<int> sums = stackalloc int[row.Length];
        sums.Clear();
        foreach (var (finger, on) in happening.Plucks)
        {
            var played = byFinger[((int)finger * (Neck.Strings + 1)) + on];
            var at = places.Slice(on * row.Length, row.Length);
            for (var l = 0; l < row.Length; l++)
            {
                sums[l] += price[at[l]] + (melody[at[l]] ? played : 0);
                row[l] = Math.Min(row[l], missing[at[l]]);
            }
        }
        for (var l = 0; l < row.Length; l++)
            row[l] += sums[l];
    }

    private void AddPairs(Span<int> row, RightEvent happening, HandShape[] shapes)
    {
        for (var l = 0; l < shapes.Length; l++)
        {
            var pair = new Sum();
            notes.Pair(ref pair, place, happening, shapes[l]);
            row[l] += pair.Total;
        }
    }

    /// <summary>Price of a note that the left hand makes.</summary>
    public int OfSlurred(int onString, int fret) => price[At(onString, fret)] + missing[At(onString, fret)];

    private static int At(int onString, int fret) => ((onString - 1) * Frets) + fret;
}
