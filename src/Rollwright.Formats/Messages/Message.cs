namespace Rollwright.Formats.Messages;

/// <summary>What a reader has to say about a place of a file.</summary>
/// <param name="Severity">How much it matters.</param>
/// <param name="File">The name that the caller gave the text.</param>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1, in characters.</param>
/// <param name="What">What is the case, in words.</param>
/// <param name="Remedy">What to do about it; empty where nothing needs doing.</param>
public sealed record Message(Severity Severity, string File, int Line, int Column, string What, string Remedy = "")
{
    /// <summary>One line: "tune.abc:12:5: error: what; remedy".</summary>
    public override string ToString() =>
        $"{File}:{Line}:{Column}: {Severity.ToString().ToLowerInvariant()}: {What}"
        + (Remedy.Length > 0 ? $"; {Remedy}" : "");
}
