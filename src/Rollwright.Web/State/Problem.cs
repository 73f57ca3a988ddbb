namespace Rollwright.Web.State;

/// <summary>Something to tell the person about their text, their wishes or what they asked of a step.</summary>
/// <param name="Line">Counted from 1; null where it is about no place of the text.</param>
/// <param name="Column">Counted from 1.</param>
/// <param name="What">What is the case.</param>
/// <param name="Remedy">What to do; may be empty.</param>
/// <param name="IsError">Something is wrong, rather than doubtful or merely to be known.</param>
/// <param name="Place">Where it stands, for what is no place of the text: "bar 3, beat 2"; may be empty.</param>
public sealed record Problem(int? Line, int? Column, string What, string Remedy, bool IsError, string Place = "")
{
    /// <summary>From a refusal that says what is the case and, after its last semicolon, what to do.</summary>
    public static Problem Refusal(string message, string place, int? line = null)
    {
        ArgumentNullException.ThrowIfNull(message);
        var words = message.TrimEnd('.');
        var parting = words.LastIndexOf("; ", StringComparison.Ordinal);
        var column = line is null ? (int?)null : 1;
        return parting < 0
            ? new(line, column, words, "", true, place)
            : new(line, column, words[..parting], words[(parting + 2)..], true, place);
    }

    /// <summary>A fault of the program: the page outlives it, and the person keeps what lies on the bench.</summary>
    public static Problem Fault(Exception fault, string place)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return new(
            null,
            null,
            $"The program failed ({fault.GetType().Name}); the fault is ours, not yours",
            "try something else, and report it with the tune",
            true,
            place
        );
    }
}
