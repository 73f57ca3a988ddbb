using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>Tells the phrases of a break one after another and remembers what it has told.</summary>
internal sealed class PhraseTeller
{
    private readonly Break played;
    private readonly Counting counting;
    private readonly PhraseHands hands;
    private readonly RightHandWords rightHand;
    private readonly BarLikeness likeness;
    private readonly TuneWords tune;
    private readonly BarEnds? ends;
    private readonly Dictionary<int, ImmutableArray<int>> told = [];
    private readonly Dictionary<int, ImmutableArray<LeftMotion>> leftOf = [];

    /// <param name="played">What is told.</param>
    /// <param name="isExcerpt">Whether its bars stand by themselves, so that they have no numbers.</param>
    public PhraseTeller(Break played, bool isExcerpt = false)
    {
        this.played = played;
        counting = new(played, isExcerpt);
        hands = new(played);
        ends = isExcerpt ? null : new(played, new(played));
        rightHand = new(played, counting);
        likeness = new(played, counting);
        tune = new(played, counting);
    }

    // What has been told is not taken along.
    private PhraseTeller(PhraseTeller other)
    {
        (played, counting, hands, ends) = (other.played, other.counting, other.hands, other.ends);
        (rightHand, tune) = (other.rightHand, other.tune);
        likeness = new(played, counting);
    }

    /// <summary>Another one of the same break, who has told nothing yet.</summary>
    public PhraseTeller Afresh() => new(this);

    public PhraseWords Tell(Phrase phrase)
    {
        var sentences = ImmutableArray.CreateBuilder<Sentence>();
        var (hand, after) = (hands.At(phrase), hands.After(phrase));
        ImmutableArray<int> full = [.. phrase.Bars.Where(bar => !IsPickup(bar))];
        var work = phrase.Bars.ToDictionary(
            bar => bar,
            bar =>
                bar == phrase.Bars[^1]
                    ? [.. hand.Next(bar), .. Ended(hand.End(bar, hands.Sources.OutOf(phrase.Bars)), bar)]
                    : hand.Next(bar)
        );
        var isKnown =
            phrase.IsAgain
            && after is null
            && told.TryGetValue(phrase.Like, out var model)
            && full.Zip(model).All(pair => LeftMotion.AreLike(work[pair.First], leftOf[pair.Second]));
        foreach (var bar in phrase.Bars)
        {
            var motions = leftOf[bar] = work[bar];
            if (!isKnown || IsPickup(bar))
                sentences.AddRange(TellBar(bar, motions, bar == phrase.Bars[0] ? after : null));
        }
        if (isKnown)
            sentences.Add(Again(phrase, full, told[phrase.Like]));
        else
            sentences.AddRange(tune.Names(phrase));
        told.Add(phrase.Number, full);
        return new(phrase.Number, sentences.ToImmutable());
    }

    // Who plays on may leave the fingers that the next bar, whichever it is, begins with.
    private ImmutableArray<LeftMotion> Ended(ImmutableArray<LeftMotion> free, int last)
    {
        if (free is not [var motion])
            return free;
        var next = hands.Following(last).Select(bar => new LeftHand(played, down: motion.Places).Next(bar)).ToList();
        return next.Count == 0
            ? free
            :
            [
                motion with
                {
                    MayStay =
                    [
                        .. motion.Places.Where(place =>
                            next.TrueForAll(after =>
                                after.Any(one => one.Kind == LeftMotionKind.Keep && one.Places.Contains(place))
                            )
                        ),
                    ],
                },
            ];
    }

    private bool IsPickup(int bar) => counting.MissingBefore(bar) > Fraction.Zero;

    private Sentence Again(Phrase phrase, ImmutableArray<int> full, ImmutableArray<int> model)
    {
        var chords = tune.Chords(full);
        var over = chords.Length > 0 && chords != tune.Chords(model) ? $", here over {chords}" : "";
        var names = Counting.Listed([.. full.Select(counting.NameOf)]);
        var verb = full.Length == 1 ? "is" : "are";
        var words = $"{Upper(names)} {verb} the same as phrase {phrase.Like}{over}.";
        return new(SentenceKind.Bar, words, words, Strokes(full), full);
    }

    private IEnumerable<Sentence> TellBar(int bar, ImmutableArray<LeftMotion> motions, int? after)
    {
        var slots = Slot.Of(played.Bars[bar], motions);
        var strokes = Strokes([bar]);
        var head = Upper(counting.NameOf(bar)) + (after is { } before ? $", after {counting.NameOf(before)}" : "");
        var chords = tune.Chords([bar]);
        var over = chords.Length > 0 ? $", over {chords}" : "";
        var likeBar = -1;
        if (likeness.Of(bar, slots, motions) is { } like)
        {
            likeBar = like.Bar;
            yield return new(
                SentenceKind.Bar,
                $"{head}{over}: as {counting.NameOf(like.Bar)}{like.Short}.",
                $"{head}{over}: play it as {counting.NameOf(like.Bar)}{like.Long}.",
                strokes,
                [bar]
            );
            if (!like.HasSameLeft)
                yield return LeftSentence(bar, slots, motions, strokes, "instead");
        }
        else
        {
            var lick = tune.Lick(bar);
            yield return new(SentenceKind.Bar, $"{head}{over}.{lick}", $"{head}{over}.{lick}", strokes, [bar])
            {
                Brief = tune.LickName(bar) is { Length: > 0 } name ? name : Ended(chords),
            };
            foreach (var sentence in Hands(bar, slots, motions))
                yield return sentence;
        }
        likeness.Remember(bar, slots, motions);
        if (tune.Where(bar) is { } where && (likeBar < 0 || tune.Where(likeBar)?.Long != where.Long))
            yield return where;
        if (ends?.Of(bar) is { Length: > 0 } end)
            yield return new(SentenceKind.Bar, "", end, [], [bar]);
    }

    // Half bar by half bar, so that nobody has to keep the one hand in mind while the other is told; the left hand first, which
    // has to be there when the right one plucks.
    private IEnumerable<Sentence> Hands(int bar, ImmutableArray<Slot> slots, ImmutableArray<LeftMotion> motions)
    {
        var (shortRoll, roll) = rightHand.Roll(bar, slots);
        if (roll.Length > 0)
            yield return new(SentenceKind.RightHand, shortRoll, roll, Strokes([bar]), [bar])
            {
                Brief = rightHand.BriefRoll(bar, slots),
            };
        if (slots.IsEmpty && !motions.IsEmpty)
            yield return LeftSentence(bar, slots, motions, []);
        var groups = BeatGroup.Of(slots, motions, played.Bars[bar].Time.BeamGroup, counting.MissingBefore(bar));
        for (var i = 0; i < groups.Length; i++)
        {
            var until = i + 1 < groups.Length ? groups[i + 1].Slots[0].At : played.Bars[bar].Length;
            var strokes = StrokesOf(bar, groups[i].Slots[0].At, until);
            var (right, full) = rightHand.Of(bar, groups[i].Slots, until);
            var (first, last) = AroundTheNotes(groups[i].Motions);
            if (!first.IsEmpty)
                yield return LeftSentence(bar, slots, first, strokes);
            yield return new(SentenceKind.RightHand, shortRoll.Length > 0 ? "" : right, full, strokes, [bar])
            {
                Brief = shortRoll.Length > 0 ? "" : RightHandWords.BriefSlurs(groups[i].Slots),
            };
            if (!last.IsEmpty)
                yield return LeftSentence(bar, slots, last, strokes);
        }
    }

    // What frees the hand, and whatever follows the lifting of a finger that a slur among the notes has put down, is told behind
    // the notes: in the order in which it is heard it is done.
    private static (ImmutableArray<LeftMotion> First, ImmutableArray<LeftMotion> Last) AroundTheNotes(
        ImmutableArray<LeftMotion> motions
    )
    {
        var begin = motions.Length;
        for (var i = motions.Length - 1; i >= 0; i--)
        {
            if (
                motions[i].Kind == LeftMotionKind.Free
                || (motions[i].Kind == LeftMotionKind.Lift && IsSlurredBefore(i))
            )
                begin = i;
        }
        // Fingers that leave together are told together.
        while (begin > 0 && begin < motions.Length && LeaveTogether(motions[begin - 1], motions[begin]))
            begin--;
        return ([.. motions.Take(begin).Where(one => !one.IsSlur)], [.. motions.Skip(begin).Where(one => !one.IsSlur)]);

        static bool LeaveTogether(LeftMotion one, LeftMotion other) =>
            one.Kind == LeftMotionKind.Lift && other.Kind == LeftMotionKind.Lift && one.At == other.At;

        bool IsSlurredBefore(int lift) =>
            motions.Take(lift).Any(one => one.IsSlur && one.Places.Intersect(motions[lift].Places).Any());
    }

    private Sentence LeftSentence(
        int bar,
        ImmutableArray<Slot> slots,
        ImmutableArray<LeftMotion> motions,
        ImmutableArray<StrokeName> strokes,
        string when = ""
    )
    {
        var (left, full) = LeftHandWords.Of(motions, Count);
        var said = when.Length > 0 ? $" {when}" : "";
        return new(SentenceKind.LeftHand, $"Left{said}: {left}.", $"Left hand{said}: {full}.", strokes, [bar])
        {
            Brief = LeftHandWords.Brief(motions),
        };

        string Count(Fraction at) =>
            slots.FirstOrDefault(slot => slot.AtOnce is [var first, ..] && first.At == at) is { } slot
                ? $"the half after {counting.Of(bar, slot.At)}"
                : counting.Of(bar, at);
    }

    private ImmutableArray<StrokeName> StrokesOf(int bar, Fraction from, Fraction to) =>
        [.. Strokes([bar]).Where(name => played.Bars[bar].Strokes[name.Index].At is var at && at >= from && at < to)];

    private ImmutableArray<StrokeName> Strokes(ImmutableArray<int> bars) =>
        [
            .. bars.SelectMany(bar =>
                Enumerable.Range(0, played.Bars[bar].Strokes.Length).Select(index => new StrokeName(bar, index))
            ),
        ];

    private static string Ended(string words) => words.Length > 0 ? $"{words}." : "";

    private static string Upper(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
