using Rollwright.Banjo.Tunings;

namespace Rollwright.Listening.Hands.Strings;

/// <summary>What a note on a string costs beside other ways, in natural logarithms: the rows string-… of <c>data/listening.txt</c>.</summary>
internal sealed class StringPrices
{
    private readonly double move = ListeningTable.Of("string-move");
    private readonly double way = ListeningTable.Of("string-way");
    private readonly double fretted = ListeningTable.Of("string-fretted");
    private readonly double held = ListeningTable.Of("string-held");
    private readonly double higher = ListeningTable.Of("string-higher");
    private readonly double up = ListeningTable.Of("string-up");
    private readonly double openUp = ListeningTable.Of("string-open-up");
    private readonly double same = ListeningTable.Of("string-same");
    private readonly double sameFirst = ListeningTable.Of("string-same-first");
    private readonly double sameShort = ListeningTable.Of("string-same-short");
    private readonly double slur = ListeningTable.Of("string-slur");
    private readonly double attackPrice = ListeningTable.Of("string-attack");
    private readonly double between = ListeningTable.Of("string-between");

    /// <summary>Of strings plucked together without the first.</summary>
    public double Pinch { get; } = ListeningTable.Of("string-pinch");

    /// <summary>The weight of what a note from before tells.</summary>
    public double Stop { get; } = ListeningTable.Of("string-stop");

    /// <summary>What a pluck and what a slur cost for how they begin.</summary>
    /// <param name="attack">0 to 1.</param>
    /// <param name="isBetween">It begins between two steps.</param>
    public (double Plucked, double Slurred) OfAttack(double attack, bool isBetween) =>
        ((attackPrice * (1 - attack)) + (isBetween ? between : 0), slur + (attackPrice * attack));

    /// <param name="hand">Before the note.</param>
    /// <param name="on">1 to 5.</param>
    /// <param name="fret">Counted from the capo.</param>
    /// <param name="isSlur">The left hand makes it.</param>
    public double Of(Guess.Hand hand, int on, int fret, bool isSlur)
    {
        var cost = 0.0;
        var position = hand.PositionFor(fret);
        if (position != hand.Position)
            cost += move + (way * Math.Abs(Neck.Place(position) - Neck.Place(hand.Position)));
        if (!isSlur && on == hand.Last)
            cost += on switch
            {
                Neck.ShortString => sameShort,
                1 => sameFirst,
                _ => same,
            };
        if (fret > 0)
            cost += (hand.FretOn(on) == fret ? held : fretted) + (higher * fret) + (up * (position - 1));
        else if (on != Neck.ShortString)
            cost += openUp * Math.Min(FarUp, hand.Position - 1);
        return cost;
    }

    // Farther up, an open string is no less usual.
    private const int FarUp = 4;
}
