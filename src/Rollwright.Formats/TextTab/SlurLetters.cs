using Rollwright.Banjo.Strokes;

namespace Rollwright.Formats.TextTab;

/// <summary>The letters of slurs in plain-text tab (common practice, no source).</summary>
internal static class SlurLetters
{
    public static string Of(SlurKind kind) =>
        kind switch
        {
            SlurKind.HammerOn => "h",
            SlurKind.PullOff => "p",
            SlurKind.Slide => "s",
            _ => "ch",
        };

    public static string NameOf(SlurKind kind) =>
        kind switch
        {
            SlurKind.HammerOn => "hammer-on",
            SlurKind.PullOff => "pull-off",
            SlurKind.Slide => "slide",
            _ => "choke",
        };
}
