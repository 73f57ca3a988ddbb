using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The question put to the solver: which shapes and right-hand states there are at every step, and what each way
/// between them costs. Immutable once built; locks and wishes for consistency are laid over it.
/// </summary>
public sealed class StepLattice
{
    private const int KnownSlurs = 1 << 8;

    private readonly int[] moveCache;
    private readonly ushort[] slurCache;
    private readonly HandShape[] allShapes;
    private readonly Dictionary<HandShape, int> idOf;
    private readonly MovePrice movePrice;
    private readonly StepPrices?[] prices;

    // Automata depend on nothing but the prices and the length of the bar: built once for all tunes.
    private static readonly ConditionalWeakTable<
        Weights,
        ConcurrentDictionary<(int Steps, bool IsFull), RightHand>
    > HandsOf = [];

    private StepLattice(
        StepGrid grid,
        Setting setting,
        LeftBounds bounds,
        Weights weights,
        RightHand[] rightHands,
        ushort[][] shapeIds,
        HandShape[] allShapes,
        ImmutableArray<LickPlace> licks
    )
    {
        Licks = licks.ToLookup(lick => lick.Step);
        Grid = grid;
        Setting = setting;
        Bounds = bounds;
        Weights = weights;
        RightHands = rightHands;
        ShapeIds = shapeIds;
        this.allShapes = allShapes;
        idOf = allShapes.Select((shape, id) => (shape, id)).ToDictionary(pair => pair.shape, pair => pair.id);
        moveCache = new int[allShapes.Length * allShapes.Length];
        Array.Fill(moveCache, -1);
        slurCache = new ushort[moveCache.Length];
        movePrice = new(weights);
        prices = new StepPrices?[grid.Steps.Length];
        Notes = new(weights, setting);
        Slurs = new(weights);
    }

    public StepGrid Grid { get; }

    public Setting Setting { get; }

    public LeftBounds Bounds { get; }

    public Weights Weights { get; }

    /// <summary>The right hand's automaton of each written bar.</summary>
    public RightHand[] RightHands { get; }

    /// <summary>For each step the shapes that may sound there, as ids; the first is the open hand.</summary>
    public ushort[][] ShapeIds { get; }

    /// <summary>Licks by the step at which they could begin.</summary>
    public ILookup<int, LickPlace> Licks { get; }

    public NotePrice Notes { get; }

    public SlurPrice Slurs { get; }

    /// <summary>The shapes that may be held before the first step of a piece of the tree: the open hand.</summary>
    public static ushort[] Nothing { get; } = [0];

    public HandShape Shape(int id) => allShapes[id];

    /// <summary>The id of a shape of this lattice.</summary>
    public int IdOf(HandShape shape) => idOf[shape];

    /// <summary>The index of a shape among those of a step.</summary>
    public int IndexAt(int step, HandShape shape) => Array.IndexOf(ShapeIds[step], (ushort)idOf[shape]);

    /// <summary>Price of the left hand's way between two shapes, by id.</summary>
    public int Move(int from, int to)
    {
        ref var known = ref moveCache[(from * allShapes.Length) + to];
        if (known < 0)
            known = movePrice.Of(allShapes[from], allShapes[to]);
        return known;
    }

    /// <summary>
    /// The slurs that lead from one shape to another, by id: two bits for each string from 1, 0 for none, else one more
    /// than the kind. The same pairs come at many steps, so they are worked out once.
    /// </summary>
    public int SlurKinds(int from, int to)
    {
        ref var known = ref slurCache[(from * allShapes.Length) + to];
        if (known == 0)
        {
            var kinds = 0;
            for (var s = 1; s <= 4; s++)
            {
                if (SlurPrice.KindOf(allShapes[from], allShapes[to], s) is { } kind)
                    kinds |= ((int)kind + 1) << (2 * (s - 1));
            }
            known = (ushort)(kinds | KnownSlurs);
        }
        return known & ~KnownSlurs;
    }

    /// <summary>The prices of a step, worked out when first asked for.</summary>
    public StepPrices Prices(int step) => prices[step] ??= StepPrices.Of(this, step);

    /// <summary>Shapes held before a step: those of the step before it in play.</summary>
    public ushort[] Before(int step)
    {
        var bar = Grid.Steps[step].Bar;
        if (step > Grid.FirstOf(bar))
            return ShapeIds[step - 1];
        var parent = Grid.Tree.Parent[bar];
        return parent < 0 ? Nothing : ShapeIds[Grid.Bars[parent].End.Value - 1];
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

    public static StepLattice Build(StepGrid grid, Setting setting, LeftBounds bounds, Weights weights)
    {
        var hands = HandsOf.GetValue(weights, _ => []);
        var rightHands = new RightHand[grid.Bars.Length];
        for (var bar = 0; bar < grid.Bars.Length; bar++)
        {
            var steps = grid.CountOf(bar);
            var isFull = grid.IsFull(bar);
            rightHands[bar] = hands.GetOrAdd(
                (steps, isFull),
                _ => RightHand.Build(steps, RollTable.All, isFull, new RightPrice(weights))
            );
        }
        var choice = new ShapeChoice(grid, setting, bounds);
        var ids = new Dictionary<HandShape, ushort> { [HandShape.Open] = 0 };
        var shapeIds = new ushort[grid.Steps.Length][];
        ImmutableArray<LickPlace> licks = [.. LickPlace.All(grid, setting, bounds.LickLevel)];
        var lickShapes = ShapesOf(licks);
        for (var step = 0; step < shapeIds.Length; step++)
        {
            var shapes = choice.At(step).Concat(lickShapes[step]).Distinct().ToArray();
            shapeIds[step] = new ushort[shapes.Length];
            for (var i = 0; i < shapes.Length; i++)
            {
                if (!ids.TryGetValue(shapes[i], out var id))
                    ids[shapes[i]] = id = (ushort)ids.Count;
                shapeIds[step][i] = id;
            }
        }
        return new(
            grid,
            setting,
            bounds,
            weights,
            rightHands,
            shapeIds,
            [.. ids.OrderBy(pair => pair.Value).Select(pair => pair.Key)],
            licks
        );
    }

    private static ILookup<int, HandShape> ShapesOf(ImmutableArray<LickPlace> licks) =>
        licks
            .SelectMany(place =>
                place.Path.SelectMany(
                    (done, i) => new[] { (Step: place.Step + i, done.Shape), (Step: place.Step + i, Shape: done.After) }
                )
            )
            .Distinct()
            .ToLookup(item => item.Step, item => item.Shape);
}
