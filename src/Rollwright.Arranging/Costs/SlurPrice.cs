using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Costs;

/// <summary>What a slur costs, and which slurs hands can make: the usual ones of <c>data/slurs.txt</c> are cheap.</summary>
public sealed class SlurPrice
{
    /// <summary>A finger hammers on or pulls off to an open string over this many frets at most (assumption).</summary>
    private const int WidestHammer = 4;

    /// <summary>The same where another finger stops the string meanwhile (assumption).</summary>
    private const int WidestHeld = 3;

    /// <summary>What putting a finger down by a hammer-on costs of the price of putting one down (assumption).</summary>
    private const int HammeredPercent = 50;

    /// <summary>A finger slides as far as the hand may move in a step, mm (assumption).</summary>
    private const double WidestSlide = Reach.Widest + Reach.MoveInAStep;

    // By kind, string, fret from, fret to: asked for thousands of times a tune.
    private readonly bool[] usual = new bool[3 * 5 * Frets * Frets];
    private readonly Weights weights;

    public SlurPrice(Weights weights)
    {
        this.weights = weights;
        foreach (var slur in SlurTable.All)
            usual[Index(slur.Kind, slur.String, slur.From, slur.To)] = true;
    }

    /// <summary>The kind of slur that leads from one shape to the other on a string; null where none does.</summary>
    /// <remarks>Besides the slurring finger nothing may be put down meanwhile: other fingers stay or lift.</remarks>
    public static SlurKind? KindOf(HandShape from, HandShape to, int onString)
    {
        var (low, high) = (from.FretOn(onString), to.FretOn(onString));
        // But for this string nothing is put down anew.
        if (low == high || !to.With(onString, 0, 0).IsWithin(from))
            return null;
        var (first, second) = (from.FingerOn(onString), to.FingerOn(onString));
        var wide = Math.Abs(high - low);
        if (low > 0 && high > 0 && first == second)
            return Math.Abs(Neck.Place(high) - Neck.Place(low)) <= WidestSlide ? SlurKind.Slide : null;
        if (wide > (low > 0 && high > 0 ? WidestHeld : WidestHammer))
            return null;
        if (high > low)
            return low == 0 || second > first ? SlurKind.HammerOn : null;
        return high == 0 || second < first ? SlurKind.PullOff : null;
    }

    /// <param name="tally">Takes the terms.</param>
    /// <param name="kind">How.</param>
    /// <param name="onString">1 to 4.</param>
    /// <param name="from">The fret that sounds before.</param>
    /// <param name="to">The fret that sounds then.</param>
    /// <param name="strength">Of the step at which it sounds: 3 bar, 2 beat, 1 between, 0 within a step.</param>
    public void Of<T>(ref T tally, SlurKind kind, int onString, int from, int to, int strength)
        where T : struct, ITally
    {
        tally.Add(Term.Slur, weights[Term.Slur]);
        if (!usual[Index(kind, onString, from, to)])
            tally.Add(Term.SlurUnusual, weights[Term.SlurUnusual]);
        // A finger pulls off to one that lies there before. A hammered finger is put down too, with less care than one that
        // must be there for a pluck; a slide moves the hand.
        if (kind == SlurKind.PullOff && to > 0)
            tally.Add(Term.Place, weights[Term.Place]);
        else if (kind == SlurKind.HammerOn)
            tally.Add(Term.Place, weights[Term.Place] * HammeredPercent / 100);
        else if (kind == SlurKind.Slide)
            tally.Add(Term.Travel, (int)(weights[Term.Travel] * Math.Abs(Neck.Place(to) - Neck.Place(from))));
        if (strength == 3)
            tally.Add(Term.SlurOnOne, weights[Term.SlurOnOne]);
        else if (strength == 2)
            tally.Add(Term.SlurOnBeat, weights[Term.SlurOnBeat]);
    }

    private const int Frets = Neck.LastFret + 1;

    private static int Index(SlurKind kind, int onString, int from, int to) =>
        (((((int)kind * 5) + onString) * Frets) + from) * Frets + to;
}
