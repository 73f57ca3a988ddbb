using System.Collections.Immutable;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The hand shapes that are worth asking for at each step: the open hand, every finger that the tune near by can use,
/// what holds notes that sound together at the step, pairs of fingers for the tune near by, the chord of the moment whole and in pieces, and pieces with one finger of the tune added.
/// </summary>
public sealed class ShapeChoice(StepGrid grid, Setting setting, LeftBounds bounds, Style style)
{
    // The tune two steps back and four ahead: what a finger may still hold, or be put down early for.
    private const int Behind = 2;
    private const int Ahead = 4;

    private readonly Dictionary<(Chord? Chord, int Low, int High), ImmutableArray<HandShape>> chordPieces = [];

    private readonly Dictionary<Sight, HandShape[]> seen = [];

    // All that the shapes of a step depend on: the chord, where the tune near by can be fretted, in order, and how many of
    // these places are the step's own, where notes sound together.
    private readonly record struct Sight(Chord? Chord, string Places, int Own);

    /// <summary>Shapes at a step, distinct, the open hand first; at most <see cref="LeftBounds.ShapesAStep"/>.</summary>
    public HandShape[] At(int step)
    {
        var (places, own) = Places(step);
        var sight = new Sight(
            grid.Steps[step].Chord,
            string.Create(
                2 * places.Count,
                places,
                static (text, all) =>
                {
                    for (var i = 0; i < all.Count; i++)
                        (text[2 * i], text[(2 * i) + 1]) = ((char)all[i].String, (char)all[i].Fret);
                }
            ),
            own
        );
        if (!seen.TryGetValue(sight, out var shapes))
            seen[sight] = shapes = Find(grid.Steps[step].Chord, places, own);
        return shapes;
    }

    private HandShape[] Find(Chord? chord, List<(int String, int Fret)> places, int own)
    {
        var found = new List<HandShape>();
        var known = new HashSet<HandShape>();
        void Add(HandShape shape)
        {
            if (found.Count < bounds.ShapesAStep && known.Add(shape))
                found.Add(shape);
        }

        Add(HandShape.Open);
        foreach (var (s, fret) in places)
        {
            foreach (var finger in Fingers(fret))
                Add(HandShape.Open.With(s, fret, finger));
        }
        // Notes of a pinch are held at once, or it cannot be played: they come before all that only might be of use.
        Pairs(places[..own]);
        var pieces = Pieces(chord, places);
        foreach (var piece in pieces)
            Add(piece);
        Pairs(places);
        foreach (var (s, fret) in places)
        {
            foreach (var piece in pieces)
            {
                if (piece.Count <= 2 && piece.FretOn(s) != fret && Together(piece.With(s, 0, 0), (s, fret)) is { } more)
                    Add(more);
            }
        }
        return [.. found];

        void Pairs(List<(int String, int Fret)> among)
        {
            foreach (var (s, fret) in among)
            {
                foreach (var (other, otherFret) in among)
                {
                    if (other > s && Together(HandShape.Open, (s, fret), (other, otherFret)) is { } pair)
                        Add(pair);
                }
            }
        }
    }

    // Where the tune near by can be fretted, nearest step first, lowest frets first; and how many of these places are the step's
    // own, where notes sound together: none where one sounds alone.
    private (List<(int String, int Fret)> Places, int Own) Places(int step)
    {
        var places = new List<(int, int)>();
        AddPlacesAt(step, places);
        var own = grid.Steps[step].Also.IsEmpty ? 0 : places.Count;
        for (var distance = 1; distance <= Ahead; distance++)
        {
            AddPlacesAt(step + distance, places);
            if (distance <= Behind)
                AddPlacesAt(step - distance, places);
        }
        return (places, own);
    }

    private void AddPlacesAt(int step, List<(int, int)> places)
    {
        if (step < 0 || step >= grid.Steps.Length)
            return;
        if (grid.Steps[step].Onset is { } key)
            AddPlaces(key, places);
        foreach (var other in grid.Steps[step].Also)
            AddPlaces(other, places);
    }

    private void AddPlaces(int key, List<(int, int)> places)
    {
        var taken = 0;
        // Strings from the highest: the lowest fret comes first.
        foreach (var s in StringsByPitch())
        {
            var fret = key - setting.Tuning.OpenOf(s);
            if (fret < 0)
                continue;
            if (fret > bounds.HighestFret || taken == style.PlacesANote)
                break;
            taken++;
            if (fret > 0 && !places.Contains((s, fret)))
                places.Add((s, fret));
        }
    }

    private IEnumerable<int> StringsByPitch() => Enumerable.Range(1, 4).OrderByDescending(setting.Tuning.OpenOf);

    // One finger a fret from the first position; higher up any finger may be the one.
    private static ImmutableArray<int> Fingers(int fret) =>
        fret switch
        {
            1 => [1],
            2 => [2, 1],
            3 => [3, 2],
            4 => [4, 3],
            5 => [4, 1],
            _ => [1, 2, 4],
        };

    private ImmutableArray<HandShape> Pieces(Chord? chord, List<(int String, int Fret)> places)
    {
        var high = places.Where(place => place.Fret >= 5).Select(place => place.Fret).DefaultIfEmpty(0).Max();
        var low = places.Where(place => place.Fret >= 5).Select(place => place.Fret).DefaultIfEmpty(0).Min();
        var key = (chord, low, high);
        if (chordPieces.TryGetValue(key, out var known))
            return known;
        var pieces = new List<HandShape>();
        if (chord is { } named)
        {
            foreach (var shape in ChordShapes.For(named, setting.Tuning))
            {
                if (shape.HighestFret > bounds.HighestFret)
                    continue;
                // Up the neck a chord is only worth its way where the tune is there too.
                if (
                    !style.WholeChords
                    && shape.HighestFret > 5
                    && (high == 0 || shape.HighestFret < low || shape.LowestFret > high)
                )
                    continue;
                AddSubsets(shape, pieces);
            }
        }
        return chordPieces[key] = [.. pieces.Distinct().OrderBy(piece => piece.Count)];
    }

    private void AddSubsets(HandShape whole, List<HandShape> pieces)
    {
        for (var mask = 1; mask < 16; mask++)
        {
            var piece = HandShape.Open;
            for (var s = 1; s <= 4; s++)
            {
                if ((mask & (1 << (s - 1))) != 0 && whole.FretOn(s) > 0)
                    piece = piece.With(s, whole.FretOn(s), whole.FingerOn(s));
            }
            if (!piece.IsOpen && piece.Count <= bounds.FingersDown)
                pieces.Add(piece);
        }
    }

    // Fingers for frets held together: rising with the frets, the lower string first; null where the hand cannot.
    private HandShape? Together(HandShape held, params ReadOnlySpan<(int String, int Fret)> added)
    {
        if (held.Count + added.Length > bounds.FingersDown)
            return null;
        Span<(int Fret, int String)> notes = stackalloc (int, int)[4];
        var count = 0;
        foreach (var (s, fret) in added)
            notes[count++] = (fret, -s);
        for (var s = 1; s <= 4; s++)
        {
            if (held.FretOn(s) > 0)
                notes[count++] = (held.FretOn(s), -s);
        }
        notes = notes[..count];
        notes.Sort();
        if (Neck.Place(notes[^1].Fret) - Neck.Place(notes[0].Fret) > Reach.Comfortable)
            return null;
        // The first position is home: low frets are fingered from it.
        if (notes[^1].Fret <= 4 && Fit(notes, 1) is { } home)
            return home;
        for (var position = notes[0].Fret; position >= Math.Max(1, notes[0].Fret - 3); position--)
        {
            if (Fit(notes, position) is { } shape)
                return shape;
        }
        return null;
    }

    private static HandShape? Fit(ReadOnlySpan<(int Fret, int String)> notes, int position)
    {
        var shape = HandShape.Open;
        var finger = 0;
        foreach (var (fret, s) in notes)
        {
            finger = Math.Max(finger + 1, fret - position + 1);
            if (finger > 4)
                return null;
            shape = shape.With(-s, fret, finger);
        }
        return shape;
    }
}
