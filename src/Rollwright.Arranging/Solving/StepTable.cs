using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Solving;

/// <summary>The prices of one step, worked out once: every event under every shape, slurs into it, slurs within it.</summary>
internal sealed class StepTable
{
    private static readonly List<SlurWay> NoSlurs = [];
    private static readonly HalfWay[] NoHalves = [];

    private readonly StepLattice lattice;
    private readonly int step;
    private readonly Dictionary<(int Shape, int From), List<SlurWay>> slurs = [];
    private readonly HalfWay[]?[]? halves;
    private readonly PathStep? model;

    public readonly record struct SlurWay(int String, SlurKind Kind, int Cost);

    public readonly record struct HalfWay(int Shape, SlurKind Kind, int Cost);

    public StepTable(StepLattice lattice, Overlay overlay, int step)
    {
        this.lattice = lattice;
        this.step = step;
        model = overlay.ModelAt(step);
        var shapes = lattice.ShapeIds[step];
        Cost = new int[shapes.Length * Events];
        HalfMissed = lattice.Notes.HalfMissed(lattice.Grid.Steps[step]);
        IsFree = overlay.LockAt(step) is null;
        MayBeSlurred = IsFree && lattice.Bounds.Slurs && !lattice.IsSeamTarget(step);
        var notes = new NoteTable(lattice, step);
        for (var l = 0; l < shapes.Length; l++)
        {
            for (var e = 0; e < Events; e++)
                Cost[(l * Events) + e] = Price(l, e, notes);
        }
        if (overlay.LockAt(step) is { } kept)
            Keep(kept);
        if (lattice.Bounds.Slurs && IsFree && lattice.Grid.Steps[step].HalfOnset is not null)
            halves = FindHalves();
    }

    public int Events => RightEvent.All.Length;

    /// <summary>Price of event e under shape l at [l * Events + e].</summary>
    public int[] Cost { get; }

    /// <summary>Price where nothing sounds half a step later although the tune asks for it.</summary>
    public int HalfMissed { get; }

    /// <summary>Not locked.</summary>
    public bool IsFree { get; }

    /// <summary>A slur from the step before may sound here: not where play also arrives from elsewhere.</summary>
    public bool MayBeSlurred { get; }

    /// <summary>Slurs that lead from a shape held before (by id) into shape l.</summary>
    public List<SlurWay> SlursTo(int l, int from)
    {
        if (from == 0 && lattice.ShapeIds[step][l] == 0)
            return NoSlurs;
        if (!slurs.TryGetValue((l, from), out var known))
            slurs[(l, from)] = known = FindSlurs(l, from);
        return known;
    }

    /// <summary>Slurs half a step after event e under shape l.</summary>
    public HalfWay[] Halves(int l, int e) => halves?[(l * Events) + e] ?? NoHalves;

    private int Price(int l, int e, NoteTable notes)
    {
        var happening = RightEvent.All[e];
        var shape = lattice.Shape(lattice.ShapeIds[step][l]);
        if (happening.IsSilent)
            return notes.Missed;
        var cost = 0;
        var missing = notes.Missed;
        foreach (var (finger, on) in happening.Plucks)
        {
            var fret = shape.FretOn(on);
            cost += notes.Price(on, fret);
            if (notes.IsMelody(on, fret))
                cost += lattice.Notes.Finger(finger);
            missing = Math.Min(missing, notes.Missing(on, fret));
        }
        cost += missing;
        if (model is { } wanted && Matches(wanted, l, e))
            cost -= lattice.Weights["consistency"];
        return cost;
    }

    private bool Matches(PathStep wanted, int l, int e)
    {
        if (wanted.Event != e || wanted.SlurString != 0)
            return false;
        var shape = lattice.Shape(lattice.ShapeIds[step][l]);
        return RightEvent.All[e].Plucks.All(pluck => shape.FretOn(pluck.String) == wanted.Shape.FretOn(pluck.String));
    }

    private void Keep(PathStep kept)
    {
        var id = lattice.IdOf(kept.Shape);
        for (var l = 0; l < lattice.ShapeIds[step].Length; l++)
        {
            for (var e = 0; e < Events; e++)
            {
                if (lattice.ShapeIds[step][l] != id || e != kept.Event)
                    Cost[(l * Events) + e] = MovePrice.Impossible;
            }
        }
    }

    private List<SlurWay> FindSlurs(int l, int from)
    {
        var (first, second) = (lattice.Shape(from), lattice.Shape(lattice.ShapeIds[step][l]));
        List<SlurWay>? found = null;
        for (var s = 1; s <= 4; s++)
        {
            if (SlurPrice.KindOf(first, second, s) is not { } kind)
                continue;
            var place = lattice.Grid.Steps[step];
            var key = lattice.Setting.Tuning.KeyOf(s, second.FretOn(s));
            var cost = lattice.Slurs.Of(kind, s, first.FretOn(s), second.FretOn(s))
                + lattice.Notes.Of(place, null, s, second.FretOn(s))
                + lattice.Notes.Missing(place, key);
            if (kind is SlurKind.HammerOn or SlurKind.PullOff && second.FretOn(s) > 0)
                cost += lattice.Weights["place"];
            if (model is { SlurString: var on, Shape: var shape } && on == s && shape.FretOn(s) == second.FretOn(s))
                cost -= lattice.Weights["consistency"];
            (found ??= []).Add(new(s, kind, cost));
        }
        return found ?? NoSlurs;
    }

    private HalfWay[]?[] FindHalves()
    {
        var place = lattice.Grid.Steps[step];
        var shapes = lattice.ShapeIds[step];
        var found = new HalfWay[]?[shapes.Length * Events];
        for (var l = 0; l < shapes.Length; l++)
        {
            for (var e = 0; e < Events; e++)
            {
                if (RightEvent.All[e].Plucks is not [var (_, s)] || s == 5)
                    continue;
                var ways = new List<HalfWay>();
                for (var to = 0; to < shapes.Length; to++)
                {
                    var (first, second) = (lattice.Shape(shapes[l]), lattice.Shape(shapes[to]));
                    if (lattice.Setting.Tuning.KeyOf(s, second.FretOn(s)) != place.HalfOnset || SlurPrice.KindOf(first, second, s) is not { } kind)
                        continue;
                    var cost = lattice.Slurs.Of(kind, s, first.FretOn(s), second.FretOn(s));
                    if (kind is SlurKind.HammerOn or SlurKind.PullOff && second.FretOn(s) > 0)
                        cost += lattice.Weights["place"];
                    ways.Add(new(to, kind, cost));
                }
                found[(l * Events) + e] = [.. ways];
            }
        }
        return found;
    }
}
