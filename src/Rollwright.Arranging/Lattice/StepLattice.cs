using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;
using Rollwright.Music.Chords;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The question put to the solver: which shapes and right-hand states there are at every step, and what each way
/// between them costs. Immutable once built; locks and wishes for consistency are laid over it.
/// </summary>
/// <remarks>Prices are worked out when first asked for; a lattice serves one thread.</remarks>
public sealed class StepLattice
{
    private static readonly HandShape[] Nothing = [HandShape.Open];

    private readonly StepPrices?[] prices;
    private readonly ShapeWays ways;
    private readonly Dictionary<StepKey, StepPrices> alike = [];
    private readonly Dictionary<(HandShape[], HandShape[]), ShapePair> pairs = [];

    private StepLattice(
        StepGrid grid,
        Setting setting,
        LeftBounds bounds,
        Style style,
        RightHand[] rightHands,
        HandShape[][] shapes,
        ImmutableArray<LickPlace> licks
    )
    {
        Licks = licks.ToLookup(lick => lick.Step);
        Grid = grid;
        Setting = setting;
        Bounds = bounds;
        Style = style;
        RightHands = rightHands;
        Shapes = shapes;
        ways = new(shapes.Distinct().SelectMany(set => set), style.Moves);
        prices = new StepPrices?[grid.Steps.Length];
        Notes = [.. style.Manners.Select(manner => new NotePrice(manner.Weights, setting))];
    }

    // The same question, and what was worked out of it, with other licks.
    private StepLattice(StepLattice other, IEnumerable<LickPlace> licks)
    {
        (Grid, Setting, Bounds, Style) = (other.Grid, other.Setting, other.Bounds, other.Style);
        (RightHands, Shapes, Notes) = (other.RightHands, other.Shapes, other.Notes);
        (prices, ways, alike, pairs) = (other.prices, other.ways, other.alike, other.pairs);
        Licks = licks.ToLookup(lick => lick.Step);
    }

    // All that the prices of a step depend on.
    private readonly record struct StepKey(
        HandShape[] Before,
        HandShape[] Shapes,
        int? Onset,
        int Weight,
        int? Sounding,
        int? NextOnset,
        Chord? Chord,
        int SlurStrength,
        int Strength,
        int NextStrength,
        bool IsAfterTheEnd,
        bool IsSeamTarget,
        bool Holds
    );

    public StepGrid Grid { get; }

    public Setting Setting { get; }

    public LeftBounds Bounds { get; }

    public Style Style { get; }

    /// <summary>The right hand's automaton of each written bar.</summary>
    public RightHand[] RightHands { get; }

    /// <summary>For each step the shapes that may sound there; the first is the open hand.</summary>
    public HandShape[][] Shapes { get; }

    /// <summary>Licks by the step at which they could begin.</summary>
    public ILookup<int, LickPlace> Licks { get; }

    /// <summary>Prices of notes, for each way of playing.</summary>
    public ImmutableArray<NotePrice> Notes { get; }

    public RightHand.Layer LayerOf(int step)
    {
        var bar = Grid.Steps[step].Bar;
        return RightHands[bar].At(step - Grid.FirstOf(bar));
    }

    /// <summary>The prices of a step, worked out when first asked for.</summary>
    public StepPrices Prices(int step)
    {
        if (prices[step] is { } known)
            return known;
        var place = Grid.Steps[step];
        var after = After(step);
        var key = new StepKey(
            Before(step),
            Shapes[step],
            place.Onset,
            place.Weight,
            place.Sounding,
            after < 0 ? null : Grid.Steps[after].Onset,
            place.Chord,
            place.SlurStrength,
            place.Strength,
            after < 0 ? 0 : Grid.Steps[after].Strength,
            place.IsAfterTheEnd,
            IsSeamTarget(step),
            Holds(step)
        );
        if (!alike.TryGetValue(key, out var found))
            alike[key] = found = StepPrices.Of(this, step);
        return prices[step] = found;
    }

    /// <summary>Lets go of the prices that were worked out, most of what a lattice takes in memory.</summary>
    public void Rest()
    {
        Array.Clear(prices);
        alike.Clear();
        pairs.Clear();
    }

    /// <summary>Whether the steps before and after lie within a step of the metre.</summary>
    public bool Holds(int step)
    {
        var bar = Grid.Steps[step].Bar;
        return RightHands[bar].Pattern.Steps[step - Grid.FirstOf(bar)].Holds;
    }

    public ShapePair StillPair(HandShape[] before, HandShape[] shapes) =>
        ShapePair.Still(ways.IdsOf(before), ways.IdsOf(shapes));

    public ShapePair Pair(HandShape[] before, HandShape[] shapes)
    {
        if (!pairs.TryGetValue((before, shapes), out var pair))
            pairs[(before, shapes)] = pair = ShapePair.Of(ways.IdsOf(before), ways.IdsOf(shapes), ways);
        return pair;
    }

    /// <summary>Shapes held before a step: those of the step before it in play; the open hand before the first.</summary>
    public HandShape[] Before(int step)
    {
        var bar = Grid.Steps[step].Bar;
        if (step > Grid.FirstOf(bar))
            return Shapes[step - 1];
        var parent = Grid.Tree.Parent[bar];
        return parent < 0 ? Nothing : Shapes[Grid.Bars[parent].End.Value - 1];
    }

    /// <summary>
    /// Whether this step follows more than one other, in play or on the page: no slur can lead into it then.
    /// </summary>
    public bool IsSeamTarget(int step)
    {
        var bar = Grid.Steps[step].Bar;
        return step == Grid.FirstOf(bar) && Grid.Tree.Seams.Any(seam => seam.To == bar);
    }

    /// <summary>The step after in play where only one follows; -1 otherwise.</summary>
    public int After(int step)
    {
        var bar = Grid.Steps[step].Bar;
        if (step + 1 < Grid.Bars[bar].End.Value)
            return step + 1;
        return Grid.Tree.Children[bar] is [var only] ? Grid.FirstOf(only) : -1;
    }

    public static StepLattice Build(
        StepGrid grid,
        Setting setting,
        LeftBounds bounds,
        Style style,
        LickIndex? bank = null
    )
    {
        // A capo takes frets away from the level's reach.
        bounds = bounds with
        {
            HighestFret = Math.Min(bounds.HighestFret, setting.LastFret),
        };
        var hasShortSteps = grid.Steps.Any(step => step.IsBetween);
        var rightHands = new RightHand[grid.Bars.Length];
        for (var bar = 0; bar < rightHands.Length; bar++)
            rightHands[bar] = style.HandFor(BarPattern.Of(grid, bar, grid.StepOf(bar), hasShortSteps));
        ImmutableArray<LickPlace> licks = [.. LickPlace.All(grid, setting, bounds, bank ?? LickIndex.BuiltIn)];
        var ends = licks.ToLookup(lick => lick.LastStep, lick => lick.Path[^1].After);
        var choice = new ShapeChoice(grid, setting, bounds, style);
        // Equal sets of shapes are one array, so that what is worked out for them is found again.
        var known = new Dictionary<ShapeSet, HandShape[]>();
        var shapes = new HandShape[grid.Steps.Length][];
        for (var step = 0; step < shapes.Length; step++)
        {
            var chosen = choice.At(step);
            var more = ends[step].Concat(Kept(step)).Except(chosen).ToArray();
            var set = new ShapeSet(more.Length > 0 ? [.. chosen, .. more] : chosen);
            if (!known.TryGetValue(set, out var same))
                known[set] = same = set.Shapes;
            shapes[step] = same;
        }
        return new(grid, setting, bounds, style, rightHands, shapes, licks);

        // Where the hand may have to keep its shape, the step has it too.
        HandShape[] Kept(int step)
        {
            var bar = grid.Steps[step].Bar;
            return step > grid.FirstOf(bar) && rightHands[bar].Pattern.Steps[step - grid.FirstOf(bar)].Holds
                ? shapes[step - 1]
                : [];
        }
    }

    /// <summary>The same question with other prices.</summary>
    public StepLattice With(Style style)
    {
        var hasShortSteps = Grid.Steps.Any(step => step.IsBetween);
        var hands = Enumerable
            .Range(0, Grid.Bars.Length)
            .Select(bar => style.HandFor(BarPattern.Of(Grid, bar, Grid.StepOf(bar), hasShortSteps)));
        return new(Grid, Setting, Bounds, style, [.. hands], Shapes, [.. Licks.SelectMany(places => places)]);
    }

    /// <summary>The same question with these licks offered besides: they are played only where someone puts them in.</summary>
    public StepLattice Offering(ImmutableArray<Lick> more)
    {
        var places = LickPlace
            .All(Grid, Setting, Bounds, new(more))
            .Select(place => place with { IsByChoice = true })
            .Where(place => Shapes[place.LastStep].Contains(place.Path[^1].After));
        return new(this, Licks.SelectMany(known => known).Where(place => !place.IsByChoice).Concat(places));
    }

    private readonly record struct ShapeSet(HandShape[] Shapes)
    {
        public bool Equals(ShapeSet other) => Shapes.AsSpan().SequenceEqual(other.Shapes);

        public override int GetHashCode()
        {
            var hash = new HashCode();
            foreach (var shape in Shapes)
                hash.Add(shape);
            return hash.ToHashCode();
        }
    }
}
