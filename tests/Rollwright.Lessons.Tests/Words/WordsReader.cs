using System.Text.RegularExpressions;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Words;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Tests.Words;

/// <summary>
/// What a reader of the words alone plays: time in the bar, string, fret, fingers, slur. By is the left finger that is said to
/// make a slur; Left the one that the string sounds at.
/// </summary>
internal readonly record struct ReadStroke(
    Fraction At,
    int String,
    int Fret,
    RightFinger? Right,
    SlurKind? Slur,
    string Left,
    string By = ""
);

/// <summary>
/// Reads long words back into strokes. It knows what a reader knows before the first word: how many bars a phrase has, the
/// metre of each, and the rolls by name; of the break itself it sees nothing.
/// </summary>
internal sealed partial class WordsReader(Break metre)
{
    private readonly Dictionary<string, List<ReadStroke>> byName = [];
    private readonly Dictionary<string, List<string>> leftByName = [];
    private readonly Dictionary<int, List<int>> fullBars = [];
    private readonly Dictionary<string, IReadOnlyList<LeftHandReader.Place>> ends = [];
    private readonly LeftHandReader hand = new();

    public Dictionary<int, List<ReadStroke>> Bars { get; } = [];

    public void Read(Phrase phrase, string text)
    {
        var numbering = metre.Numbering;
        fullBars[phrase.Number] = [.. phrase.Bars.Where(bar => !numbering[bar].IsShortInFront)];
        var next = 0;
        foreach (var line in text.Split('\n'))
        {
            if (Again().Match(line) is { Success: true } again)
            {
                var model = fullBars[int.Parse(again.Groups["phrase"].Value)];
                for (var i = 0; i < model.Count; i++)
                {
                    var bar = fullBars[phrase.Number][i];
                    leftByName[NameOf(bar)] = leftByName[NameOf(model[i])];
                    Keep(bar, byName[NameOf(model[i])]);
                }
                continue;
            }
            // What only names notes speaks of no new bar.
            if (!Head().IsMatch(line))
                continue;
            if (After().Match(line) is { Success: true } after)
                hand.GoOnFrom(ends[after.Groups["bar"].Value]);
            Keep(phrase.Bars[next], Bar(phrase.Bars[next], line));
            next++;
        }
        hand.EndPhrase();
    }

    // The notes with the fingers that lie on their strings at their time: the right hand's words say the fret as well.
    private List<ReadStroke> Held(int bar, List<ReadStroke> strokes)
    {
        List<ReadStroke> ordered = [.. strokes.OrderBy(stroke => stroke.At).ThenBy(stroke => stroke.String)];
        hand.Begin(leftByName[NameOf(bar)], moment => At(bar, moment));
        for (var i = 0; i < ordered.Count; i++)
        {
            hand.GoTo(ordered[i].At);
            if (ordered[i].By.Length > 0)
                hand.Slur(ordered[i]);
            var (fret, finger) = hand.On(ordered[i].String);
            fret.Should()
                .Be(
                    ordered[i].Fret,
                    $"string {ordered[i].String} in {NameOf(bar)}: {string.Join(". ", leftByName[NameOf(bar)])}; down: {hand} at {ordered[i]}"
                );
            ordered[i] = ordered[i] with { Left = finger, By = "" };
        }
        hand.GoTo(metre.Bars[bar].Length);
        ends[NameOf(bar)] = hand.Down;
        return ordered;
    }

    private void Keep(int bar, List<ReadStroke> strokes)
    {
        Bars[bar] = Held(bar, strokes);
        byName[NameOf(bar)] = strokes;
    }

    private string NameOf(int bar) => new Counting(metre).NameOf(bar);

    private List<ReadStroke> Bar(int bar, string line)
    {
        var like = Like().Match(line);
        List<string> left = [.. LeftSentence().Matches(line).Select(said => said.Groups["what"].Value)];
        leftByName[NameOf(bar)] = left.Count == 0 && like.Success ? leftByName[like.Groups["bar"].Value] : left;
        if (like.Success)
        {
            var strokes = byName[like.Groups["bar"].Value].ToList();
            foreach (var change in like.Groups["but"].Value.Split("; ", StringSplitOptions.RemoveEmptyEntries))
            {
                var (at, what) = Counted(bar, change);
                strokes.RemoveAll(stroke =>
                    stroke.At == at || (stroke.At == at + Half(bar) && stroke.Slur is not null)
                );
                if (what != "leave out the note")
                    strokes.AddRange(Slot(bar, at, what));
            }
            return [.. strokes.OrderBy(stroke => stroke.At)];
        }
        var read = new List<ReadStroke>();
        foreach (Match sentence in Notes().Matches(line))
        {
            foreach (var stretch in sentence.Value[..^1].Split("; "))
            {
                var (at, what) = Counted(bar, stretch);
                foreach (
                    var (item, i) in what.Split(", ").Where(item => item != "then wait").Select((item, i) => (item, i))
                )
                    read.AddRange(Slot(bar, at + (Step(bar) * i), item));
            }
        }
        // The name of a roll is held to what is played.
        if (NamedRoll().Match(line) is { Success: true } roll)
        {
            var known = RollTable.All.Single(one => RollName(one) == roll.Groups["name"].Value);
            read.Where(stroke => stroke.Right is not null)
                .Select(stroke => stroke.Right!.Value)
                .Should()
                .Equal(read.Where(stroke => stroke.Right is not null).Select((_, i) => known.FingerAt(i)), line);
        }
        if (read.Count == 0)
            line.Should().Contain("Right hand: rest.");
        return read;
    }

    private static string RollName(Roll roll) =>
        roll.Name.Split(", ", 2) is [var kind, var start] ? $"{kind} roll, {start}" : $"{roll.Name} roll";

    private (Fraction At, string What) Counted(int bar, string words)
    {
        var match = CountFirst().Match(words);
        match.Success.Should().BeTrue(words);
        return (At(bar, match), match.Groups["what"].Value);
    }

    private Fraction At(int bar, Match moment) =>
        (SpokenTerms.CountsTo(moment) * metre.Bars[bar].Time.Count)
        - metre.Numbering[bar].Missing
        + (SpokenTerms.IsHalfAfter(moment) ? Half(bar) : Fraction.Zero);

    private Fraction Step(int bar) => metre.Bars[bar].Time.Step;

    private Fraction Half(int bar) => Step(bar) / new Fraction(2);

    // "thumb 3", "pinch thumb 5 with index 2 and middle 1", "hammer the middle finger onto string 3 at fret 2", both with "and with it"; "and at once".
    private IEnumerable<ReadStroke> Slot(int bar, Fraction at, string words)
    {
        var atOnce = words.Split(" and at once ", 2);
        var together = atOnce[0].Split(" and with it ", 2);
        var read = Pluck()
            .Matches(together[0])
            .Select(pluck => new ReadStroke(
                at,
                SpokenTerms.StringOf(pluck),
                SpokenTerms.FretOf(pluck),
                SpokenTerms.RightOf(pluck),
                null,
                ""
            ))
            .ToList();
        read.AddRange(Slur().Matches(together[^1]).Select(slur => Slurred(at, slur)));
        if (atOnce.Length > 1)
            read.AddRange(Slur().Matches(atOnce[1]).Select(slur => Slurred(at + Half(bar), slur)));
        read.Should().NotBeEmpty(words);
        return read.OrderBy(stroke => stroke.At).ThenBy(stroke => stroke.String);
    }

    private static ReadStroke Slurred(Fraction at, Match slur) =>
        new(
            at,
            SpokenTerms.StringOf(slur),
            SpokenTerms.FretOf(slur),
            null,
            SpokenTerms.SlurOf(slur),
            "",
            SpokenTerms.LeftOf(slur)
        );

    [GeneratedRegex(@"^Bars? .* the same as phrase (?<phrase>\d+)", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex Again();

    [GeneratedRegex(@"^(Bar|The pickup|The rest)\b", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex Head();

    [GeneratedRegex(
        @": play it as (?<bar>(the pickup to |the rest of )?bar \w+)(, but (?<but>[^.]*))?\.",
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex Like();

    [GeneratedRegex("^[^.,]*, after (?<bar>bar \\w+)", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex After();

    [GeneratedRegex(@"Left hand( instead)?: (?<what>[^.]*)\.", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex LeftSentence();

    [GeneratedRegex(@"Right hand: the (?<name>[^.]*)\.", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex NamedRoll();

    [GeneratedRegex(@"Count \d[^.]*\.", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex Notes();

    [GeneratedRegex(
        "^([Cc]ount|on) " + SpokenTerms.Count + ": (?<what>.*)$",
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex CountFirst();

    [GeneratedRegex(
        SpokenTerms.RightHand + " " + SpokenTerms.String + "( at " + SpokenTerms.Fret + ")?",
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex Pluck();

    [GeneratedRegex(
        SpokenTerms.Slur
            + " ((the )?"
            + SpokenTerms.LeftHand
            + " (onto|off|on) )?string "
            + SpokenTerms.String
            + " (to|at) "
            + SpokenTerms.Fret,
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex Slur();
}
