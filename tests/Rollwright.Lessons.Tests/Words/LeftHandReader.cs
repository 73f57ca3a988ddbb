using System.Globalization;
using System.Text.RegularExpressions;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Tests.Words;

/// <summary>
/// The left hand of one who does what the words say and nothing else: a finger that no word lifts stays down, and a finger
/// that the words put somewhere must be free.
/// </summary>
internal sealed partial class LeftHandReader
{
    private const int Patience = 1000;

    private readonly List<(int String, int Fret, string Finger)> held = [];
    private string said = "";
    private Queue<(Fraction At, string Words)> ahead = new();
    private List<(int String, int Fret, string Finger)> over = [];

    public void Begin(string words, Func<string, Fraction> at, Fraction half)
    {
        said = words;
        ahead = new(
            words.Split("; ", StringSplitOptions.RemoveEmptyEntries).Select(one => (TimeOf(one, at, half), one))
        );
    }

    /// <summary>Does what is said to be done by a time.</summary>
    public void GoTo(Fraction at)
    {
        while (
            ahead.Count > 0 && ahead.Peek().At <= at && !(ahead.Peek().Words.EndsWith("over", StringComparison.Ordinal))
        )
            Do(ahead.Dequeue().Words);
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
            Do(ahead.Dequeue().Words);
        over = [.. held];
        held.Clear();
    }

    private void Do(string words)
    {
        var places = Place().Matches(words).Select(Read).ToList();
        var finger = Finger().Match(words).Value;
        if (words.StartsWith("nothing", StringComparison.Ordinal))
            return;
        if (words.EndsWith("over", StringComparison.Ordinal))
        {
            if (words.StartsWith("lift all fingers", StringComparison.Ordinal))
                held.RemoveAll(_ => true).Should().BeGreaterThan(1, words);
            foreach (Match leaving in Finger().Matches(words))
                held.RemoveAll(place => place.Finger == leaving.Value)
                    .Should()
                    .BePositive($"{words} in {said}; down: {this}");
        }
        else if (words.StartsWith("keep", StringComparison.Ordinal))
        {
            if (!held.Contains(places[0]))
            {
                over.Should().Contain(places[0], words);
                held.Add(places[0]);
            }
        }
        else if (From().Match(words) is { Success: true } from)
            held.RemoveAll(place => place.Finger == finger && place.String == Number(from, "s"))
                .Should()
                .BePositive($"{words} in {said}; down: {this}");
        else if (Onto().Match(words) is { Success: true } onto)
        {
            held.RemoveAll(place => place.Finger == finger && !words.StartsWith("hammer", StringComparison.Ordinal));
            places = [(Number(onto, "s"), Number(onto, "f"), finger)];
        }
        if (words.StartsWith("move", StringComparison.Ordinal) && Moved().Match(words) is { Success: true } moved)
        {
            held.RemoveAll(place => place.Finger == finger);
            places = [(Number(moved, "s"), Number(moved, "f"), finger)];
        }
        // In another shape the fingers that are its own go to their places.
        if (words.StartsWith("go to", StringComparison.Ordinal))
            held.RemoveAll(other => !places.Contains(other) && places.Exists(place => IsElsewhere(place, other)));
        foreach (var place in places.Where(place => !held.Contains(place)))
        {
            held.Should().NotContain(other => IsElsewhere(place, other), words);
            held.Add(place);
        }
    }

    /// <summary>What lies on the neck, for messages.</summary>
    public override string ToString() => string.Join(", ", held);

    // The index finger lies over several strings at one fret; who "a finger" is, nobody knows.
    private static bool IsElsewhere(
        (int String, int Fret, string Finger) place,
        (int String, int Fret, string Finger) other
    ) =>
        place.Finger == other.Finger
        && place.Finger != "a finger"
        && !(place.Finger == "index finger" && place.Fret == other.Fret);

    private static Fraction TimeOf(string words, Func<string, Fraction> at, Fraction half)
    {
        if (Time().Match(words) is not { Success: true } time)
            return Fraction.Zero;
        return at(time.Groups["count"].Value) + (time.Groups["half"].Success ? half : Fraction.Zero);
    }

    private static (int String, int Fret, string Finger) Read(Match place) =>
        (Number(place, "s"), Number(place, "f"), place.Groups["finger"].Value);

    private static int Number(Match match, string group) =>
        int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(
        @" (by|before|on) (?<half>the half after )?(?<count>\d[^\s,]*)(,|$)",
        RegexOptions.ExplicitCapture,
        Patience
    )]
    private static partial Regex Time();

    [GeneratedRegex(@"thumb|(index|middle|ring|little|a) finger", RegexOptions.ExplicitCapture, Patience)]
    private static partial Regex Finger();

    [GeneratedRegex(
        @"(?<finger>thumb|(index|middle|ring|little|a) finger) on string (?<s>\d) at fret (?<f>\d+)",
        RegexOptions.ExplicitCapture,
        Patience
    )]
    private static partial Regex Place();

    [GeneratedRegex(@"^(lift|pull off with) .* from string (?<s>\d)", RegexOptions.ExplicitCapture, Patience)]
    private static partial Regex From();

    [GeneratedRegex(
        @"^(hammer .* onto string (?<s>\d) at|slide .* on string (?<s>\d) to) fret (?<f>\d+)",
        RegexOptions.ExplicitCapture,
        Patience
    )]
    private static partial Regex Onto();

    [GeneratedRegex(
        @"(to string (?<s>\d) at|on string (?<s>\d) (up|down) to) fret (?<f>\d+)",
        RegexOptions.ExplicitCapture,
        Patience
    )]
    private static partial Regex Moved();
}
