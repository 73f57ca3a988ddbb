using System.Text.RegularExpressions;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Tests.Words;

/// <summary>
/// The left hand of one who does what the words say and nothing else: a finger that no word lifts stays down, and a finger
/// that the words put somewhere must be free. "It" is the one finger that was spoken of last in the same sentence.
/// </summary>
internal sealed partial class LeftHandReader
{
    private readonly List<Place> held = [];
    private string said = "";
    private Queue<(Fraction At, string Words, bool IsFirst)> ahead = new();
    private List<Place> over = [];
    private Place it;

    internal readonly record struct Place(int String, int Fret, string Finger);

    /// <summary>What lies on the neck now.</summary>
    public IReadOnlyList<Place> Down => [.. held];

    /// <summary>The fingers lie as they lay at the end of another bar.</summary>
    public void GoOnFrom(IReadOnlyList<Place> down)
    {
        held.Should().BeEmpty(said);
        held.AddRange(down);
    }

    /// <summary>Does what is said among the notes: a finger hammers on, pulls off, slides.</summary>
    public void Slur(ReadStroke slur)
    {
        var place = new Place(slur.String, slur.Fret, slur.By);
        if (slur.Slur == SlurKind.PullOff)
        {
            var leaving = held.Where(one => one.String == slur.String && one.Finger == slur.By).ToList();
            leaving.Should().NotBeEmpty($"{slur}; down: {this}");
            held.Remove(leaving.MaxBy(one => one.Fret));
            return;
        }
        if (slur.Slur == SlurKind.Slide)
            held.RemoveAll(one => one.Finger == slur.By && IsElsewhere(place, one));
        held.Should().NotContain(other => IsElsewhere(place, other), $"{slur} in {said}; down: {this}");
        if (!held.Contains(place))
            held.Add(place);
    }

    /// <param name="sentences">What is said of the left hand in a bar, without "Left hand:".</param>
    /// <param name="at">Whole notes from the start of the bar to a moment that is said.</param>
    public void Begin(IReadOnlyList<string> sentences, Func<Match, Fraction> at)
    {
        said = string.Join(". ", sentences);
        ahead = new(
            sentences.SelectMany(sentence =>
                sentence
                    .Split("; ")
                    .Select(
                        (one, i) =>
                            (Time().Match(one) is { Success: true } time ? at(time) : Fraction.Zero, one, i == 0)
                    )
            )
        );
    }

    /// <summary>Does what is said to be done by a time.</summary>
    public void GoTo(Fraction at)
    {
        while (ahead.Count > 0 && ahead.Peek().At <= at && !IsAtTheEnd(ahead.Peek().Words))
            Do(ahead.Dequeue());
    }

    /// <summary>The fret and the finger that a string sounds at; 0 and none where it is open.</summary>
    public (int Fret, string Finger) On(int banjoString)
    {
        var there = held.Where(place => place.String == banjoString).OrderBy(place => place.Fret).LastOrDefault();
        return (there.Fret, there.Finger ?? "");
    }

    /// <summary>The hand is free now, but for fingers that the next phrase says it keeps.</summary>
    public void EndPhrase()
    {
        while (ahead.Count > 0)
            Do(ahead.Dequeue());
        over = [.. held];
        held.Clear();
    }

    /// <summary>What lies on the neck, for messages.</summary>
    public override string ToString() => string.Join(", ", held);

    private static bool IsAtTheEnd(string words) => words.EndsWith("at the end", StringComparison.Ordinal);

    private void Do((Fraction At, string Words, bool IsFirst) one)
    {
        it = one.IsFirst ? default : it;
        var words = one.Words;
        List<Place> there = [.. On().Matches(words).Select(Read)];
        if (IsAtTheEnd(words))
            Free(words);
        else if (words.StartsWith("keep ", StringComparison.Ordinal))
            Keep(there);
        else if (Leaving().IsMatch(words))
            Leave(words);
        else if (Went().Match(words) is { Success: true } went)
            there = [Moved(went)];
        else if (words != "nothing new" && !words.StartsWith("where you play on", StringComparison.Ordinal))
            there.Should().NotBeEmpty(words);
        // In another shape the fingers that are its own go to their places.
        if (words.StartsWith("go to ", StringComparison.Ordinal))
            held.RemoveAll(other => !there.Contains(other) && there.Exists(place => IsElsewhere(place, other)));
        foreach (var place in there.Where(place => !held.Contains(place)))
        {
            held.Should().NotContain(other => IsElsewhere(place, other), $"{words} in {said}");
            held.Add(place);
        }
        if (there.Count > 0)
            it = there.Count == 1 ? there[0] : default;
    }

    private void Free(string words)
    {
        if (AllGone(words))
            return;
        foreach (Match leaving in Finger().Matches(words))
            held.RemoveAll(place => place.Finger == Named(leaving))
                .Should()
                .BePositive($"{words} in {said}; down: {this}");
    }

    // "Both" and "all" are told apart, and leave nothing on the neck.
    private bool AllGone(string words)
    {
        var fingers = held.Select(place => place.Finger == "a finger" ? $"{place}" : place.Finger).Distinct().Count();
        if (words.StartsWith("lift both fingers", StringComparison.Ordinal))
            fingers.Should().Be(2, $"{words} in {said}; down: {this}");
        else if (words.StartsWith("lift all fingers", StringComparison.Ordinal))
            fingers.Should().BeGreaterThan(2, $"{words} in {said}; down: {this}");
        else if (fingers != 1 || !words.StartsWith($"lift the {held[0].Finger} before", StringComparison.Ordinal))
            return false;
        held.Clear();
        return true;
    }

    private void Keep(List<Place> there)
    {
        foreach (var place in there.Where(place => !held.Contains(place)))
        {
            over.Should().Contain(place, said);
            held.Add(place);
        }
    }

    // Fingers leave their strings.
    private void Leave(string words)
    {
        if (AllGone(words))
            return;
        var from = From().Matches(words);
        if (from.Count == 0)
        {
            // "It" must be one finger on one string, or nobody knows from where it goes.
            held.Where(place => place.Finger == it.Finger).Should().Equal([it], $"{words} in {said}; down: {this}");
            held.Remove(it);
        }
        foreach (Match leaving in from)
        {
            var (finger, s) = (Named(leaving), SpokenTerms.StringOf(leaving));
            held.RemoveAll(place => place.Finger == finger && place.String == s)
                .Should()
                .BePositive($"{words} in {said}; down: {this}");
            it = from.Count == 1 ? new(s, 0, finger) : default;
        }
    }

    // A finger goes to another fret of its string, or to another string where one is said.
    private Place Moved(Match match)
    {
        var finger = Named(match);
        var s = match.Groups["s"].Success ? SpokenTerms.StringOf(match) : it.String;
        held.RemoveAll(place => place.Finger == finger).Should().BePositive($"{match.Value} in {said}; down: {this}");
        return new(s, SpokenTerms.FretOf(match), finger);
    }

    private string Named(Match match)
    {
        var finger = SpokenTerms.LeftOf(match);
        if (finger != "it")
            return finger;
        it.Finger.Should().NotBeNull($"{match.Value} in {said}");
        return it.Finger;
    }

    private Place Read(Match match) => new(SpokenTerms.StringOf(match), SpokenTerms.FretOf(match), Named(match));

    // The index finger lies over several strings at one fret; who "a finger" is, nobody knows.
    private static bool IsElsewhere(Place place, Place other) =>
        place.Finger == other.Finger
        && place.Finger != "a finger"
        && !(place.Finger == "index finger" && place.Fret == other.Fret);

    [GeneratedRegex(
        " (by|before|on) " + SpokenTerms.Moment + "(,|$)",
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex Time();

    [GeneratedRegex(@"\b" + SpokenTerms.LeftHand + @"\b", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex Finger();

    [GeneratedRegex(
        SpokenTerms.LeftHand + " on string " + SpokenTerms.String + " at " + SpokenTerms.Fret,
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex On();

    [GeneratedRegex("^lift ", RegexOptions.ExplicitCapture, SpokenTerms.Patience)]
    private static partial Regex Leaving();

    [GeneratedRegex(
        SpokenTerms.LeftHand + " from string " + SpokenTerms.String,
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex From();

    [GeneratedRegex(
        "^move (the )?"
            + SpokenTerms.LeftHand
            + @"( from string \d)?( (to|on) string "
            + SpokenTerms.String
            + ")?( (at|up to|down to)) "
            + SpokenTerms.Fret,
        RegexOptions.ExplicitCapture,
        SpokenTerms.Patience
    )]
    private static partial Regex Went();
}
