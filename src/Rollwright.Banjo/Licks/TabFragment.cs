using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Rollwright.Banjo.Licks;

/// <summary>A piece of tab to look for: the tokens of licks in a row, right-hand fingers where they are written.</summary>
public sealed partial class TabFragment
{
    private readonly ImmutableArray<string> tokens;

    private TabFragment(ImmutableArray<string> tokens) => this.tokens = tokens;

    /// <summary>Reads "3.2Ts4 2.0I", "3.2 2.0" or "4.0 h2"; null where a word is no token of tab.</summary>
    public static TabFragment? Read(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return words.Length > 0 && words.All(word => IsToken().IsMatch(word)) ? new([.. words]) : null;
    }

    public bool IsIn(Lick lick)
    {
        var steps = LickTabWriter.Write(lick.Steps).Split(' ');
        for (var start = 0; start + tokens.Length <= steps.Length; start++)
        {
            var at = start;
            if (tokens.Select((token, i) => Matches(token, steps[at + i])).All(same => same))
                return true;
        }
        return false;
    }

    // Left-hand fingers do not matter; a right-hand finger does where it is asked for.
    private static bool Matches(string token, string step)
    {
        var (asked, found) = (LeftFinger().Replace(token, ""), LeftFinger().Replace(step, ""));
        return asked == found || (!RightFinger().IsMatch(asked) && asked == RightFinger().Replace(found, ""));
    }

    [GeneratedRegex(
        @"^(-|[hps]\d{1,2}(:\d)?|[1-5]\.\d{1,2}[TIM]?(:\d)?(\+[1-5]\.\d{1,2}[TIM]?(:\d)?)*([hps]\d{1,2}(:\d)?)?)$",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex IsToken();

    [GeneratedRegex(@":\d", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex LeftFinger();

    [GeneratedRegex("[TIM]", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex RightFinger();
}
