using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>The table of rules: what both hands can do.</summary>
public static class Rules
{
    private const string Practice = "common practice, no source";

    public static ImmutableArray<Rule> All { get; } =
    [
        new(
            "no-such-fret",
            "A string has frets up to the last; the short one begins at fret 6.",
            "22 less the capo",
            Practice,
            NoSuchFret
        ),
        new(
            "no-finger",
            "A plucked note names its right-hand finger, a slurred one has none.",
            "-",
            "the definition of a break",
            NoFinger
        ),
        new("two-on-a-string", "A string sounds one note at a time.", "-", "geometry", TwoOnAString),
        new(
            "finger-on-two-strings",
            "A right-hand finger plucks one string at a time.",
            "-",
            Practice,
            FingerOnTwoStrings
        ),
        new(
            "fingers-cross",
            "In a pinch thumb, index, middle stand in this order from the short string's side.",
            "-",
            Practice,
            FingersCross
        ),
        new(
            "finger-again",
            "No right-hand finger plays on two steps running, over bar lines and repeats too.",
            "one step",
            "a published page on playing banjo tablature",
            FingerAgain
        ),
        new("stretch", "Frets held at once lie within the hand's reach.", $"{Reach.Widest} mm", "assumption", Stretch),
        new(
            "hand-jump",
            "Frets of two steps running lie within reach and one short move.",
            $"{Reach.Widest} + {Reach.MoveInAStep} mm",
            "assumption",
            HandJump
        ),
        new(
            "left-finger-twice",
            "A left-hand finger holds one fret at a time, on strings beside each other.",
            "-",
            "anatomy",
            LeftFingerTwice
        ),
        new(
            "slur",
            "A slur starts from the note that rings on its string and goes where its kind can go.",
            "-",
            "a published beginner's text",
            Slur
        ),
        new(
            "slur-on-short-string",
            "The short string is not slurred.",
            "-",
            "a published beginner's text",
            SlurOnShortString
        ),
        new(
            "short-string",
            "The short string belongs to the thumb.",
            "-",
            "a published page on playing banjo tablature",
            ShortString
        ),
    ];

    private static IEnumerable<Finding> NoSuchFret(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from item in moment.Strokes
        let stroke = item.Stroke
        where
            stroke.String is < 1 or > Neck.Strings
            || !Neck.HasFret(stroke.String, stroke.Fret)
            || stroke.Fret > played.Setting.LastFret
        select moment.Fault("no-such-fret", $"string {stroke.String} has no fret {stroke.Fret} here", stroke);

    private static IEnumerable<Finding> NoFinger(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from item in moment.Strokes
        let stroke = item.Stroke
        where stroke.Slur is null == stroke.Right is null
        select moment.Fault(
            "no-finger",
            stroke.Slur is null
                ? $"no finger plucks string {stroke.String}"
                : $"the slur on string {stroke.String} is plucked too",
            stroke
        );

    private static IEnumerable<Finding> TwoOnAString(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from pair in moment.Strokes.GroupBy(item => item.Stroke.String)
        where pair.Count() > 1
        select moment.Fault("two-on-a-string", $"string {pair.Key} is asked for two notes at once", pair.Last().Stroke);

    private static IEnumerable<Finding> FingerOnTwoStrings(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from pair in moment.Plucked.Where(stroke => stroke.Right is not null).GroupBy(stroke => stroke.Right)
        where pair.Count() > 1
        select moment.Fault("finger-on-two-strings", $"{pair.Key} plucks two strings at once", pair.Last());

    private static IEnumerable<Finding> FingersCross(Break played, ImmutableArray<Moment> moments)
    {
        foreach (var moment in moments)
        {
            var ordered = moment
                .Plucked.Where(stroke => stroke.Right is not null)
                .OrderBy(stroke => stroke.Right)
                .ToArray();
            for (var i = 1; i < ordered.Length; i++)
            {
                if (ordered[i].String > ordered[i - 1].String)
                {
                    yield return moment.Fault(
                        "fingers-cross",
                        $"{ordered[i - 1].Right} on string {ordered[i - 1].String} and {ordered[i].Right} on string {ordered[i].String} cross",
                        ordered[i]
                    );
                }
            }
        }
    }

    private static IEnumerable<Finding> FingerAgain(Break played, ImmutableArray<Moment> moments)
    {
        var last = new Dictionary<RightFinger, Moment>();
        foreach (var moment in moments)
        {
            foreach (var stroke in moment.Plucked)
            {
                // Where the metre changes, the finer of the two steps is the one that fingers take in turn.
                if (
                    stroke.Right is { } finger
                    && last.TryGetValue(finger, out var before)
                    && moment.At - before.At <= Fraction.Min(moment.Step, before.Step)
                )
                    yield return moment.Fault("finger-again", $"{finger} has just played one step before", stroke);
            }
            foreach (var stroke in moment.Plucked)
            {
                if (stroke.Right is { } finger)
                    last[finger] = moment;
            }
        }
    }

    private static IEnumerable<Finding> Stretch(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        let reach = Reach.Between(moment.Fretted.Select(stroke => stroke.Fret))
        where reach > Reach.Widest
        select moment.Fault("stretch", $"the left hand would have to stretch {reach:0} mm", moment.Fretted.First());

    private static IEnumerable<Finding> HandJump(Break played, ImmutableArray<Moment> moments)
    {
        foreach (var (before, now) in Neighbours(moments))
        {
            if (!before.Fretted.Any() || !now.Fretted.Any())
                continue;
            var reach = Reach.Between(before.Fretted.Concat(now.Fretted).Select(stroke => stroke.Fret));
            if (reach > Reach.Widest + Reach.MoveInAStep)
                yield return now.Fault(
                    "hand-jump",
                    $"the left hand would have to jump over {reach:0} mm within a step",
                    now.Fretted.First()
                );
        }
    }

    private static IEnumerable<Finding> LeftFingerTwice(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from held in moment.Fretted.Where(stroke => stroke.Left is not null).GroupBy(stroke => stroke.Left)
        where held.Select(stroke => stroke.Fret).Distinct().Count() > 1
        select moment.Fault("left-finger-twice", $"left finger {held.Key} would hold two frets at once", held.Last());

    private static IEnumerable<Finding> Slur(Break played, ImmutableArray<Moment> moments)
    {
        var ringing = new Dictionary<int, (Fraction At, Stroke Stroke)>();
        foreach (var moment in moments)
        {
            foreach (var stroke in moment.Strokes.Select(item => item.Stroke))
            {
                if (stroke.Slur is { } kind)
                {
                    if (!ringing.TryGetValue(stroke.String, out var last) || moment.At - last.At > moment.Step * 8)
                        yield return moment.Fault(
                            "slur",
                            $"nothing rings on string {stroke.String} for a slur to start from",
                            stroke
                        );
                    else if (!Possible(kind, last.Stroke.Fret, stroke.Fret))
                        yield return moment.Fault(
                            "slur",
                            $"no {SlurNames.Word(kind)} goes from fret {last.Stroke.Fret} to {stroke.Fret}",
                            stroke
                        );
                }
                ringing[stroke.String] = (moment.At, stroke);
            }
        }
    }

    private static bool Possible(SlurKind kind, int from, int to) =>
        kind switch
        {
            SlurKind.HammerOn => to > from,
            SlurKind.PullOff => to < from,
            SlurKind.Slide => from > 0 && to > 0 && from != to,
            _ => from > 0 && from == to,
        };

    private static IEnumerable<Finding> SlurOnShortString(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from item in moment.Strokes
        where item.Stroke is { Slur: not null, String: Neck.ShortString }
        select moment.Fault("slur-on-short-string", "the short string cannot well be slurred", item.Stroke);

    private static IEnumerable<Finding> ShortString(Break played, ImmutableArray<Moment> moments) =>
        from moment in moments
        from stroke in moment.Plucked
        where stroke.String == Neck.ShortString && stroke.Right is (RightFinger.I or RightFinger.M)
        select moment.Fault("short-string", $"{stroke.Right} plucks the short string, which is the thumb's", stroke);

    // Moments no more than a step apart: what follows within the time of one step.
    private static IEnumerable<(Moment Before, Moment Now)> Neighbours(ImmutableArray<Moment> moments)
    {
        for (var i = 1; i < moments.Length; i++)
        {
            if (moments[i].At - moments[i - 1].At <= moments[i].Step)
                yield return (moments[i - 1], moments[i]);
        }
    }
}
