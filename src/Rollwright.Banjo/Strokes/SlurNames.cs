namespace Rollwright.Banjo.Strokes;

/// <summary>What players call the slurs, and the letters that tab writes for them (common practice, no source).</summary>
public static class SlurNames
{
    /// <summary>"h", "p", "s", "ch".</summary>
    public static string Letter(SlurKind kind) =>
        kind switch
        {
            SlurKind.HammerOn => "h",
            SlurKind.PullOff => "p",
            SlurKind.Slide => "s",
            _ => "ch",
        };

    /// <summary>"hammer-on", "pull-off", "slide", "choke".</summary>
    public static string Word(SlurKind kind) =>
        kind switch
        {
            SlurKind.HammerOn => "hammer-on",
            SlurKind.PullOff => "pull-off",
            SlurKind.Slide => "slide",
            _ => "choke",
        };
}
