using Rollwright.Banjo.Strokes;

namespace Rollwright.Lessons.Words;

/// <summary>What fingers, frets and slurs are called (common practice, no source).</summary>
internal static class HandNames
{
    private static readonly string[] Left = ["thumb", "index", "middle", "ring", "little"];

    /// <summary>"thumb", "index", "middle".</summary>
    public static string Of(RightFinger finger) =>
        finger switch
        {
            RightFinger.T => "thumb",
            RightFinger.I => "index",
            _ => "middle",
        };

    /// <summary>"index finger"; "thumb"; "a finger" where it is not known which.</summary>
    public static string OfLeft(int? finger) =>
        finger switch
        {
            null => "a finger",
            0 => "thumb",
            { } known => $"{Left[known]} finger",
        };

    /// <summary>"the ring finger"; "a finger" where it is not known which.</summary>
    public static string TheLeft(int? finger) => finger is null ? OfLeft(finger) : $"the {OfLeft(finger)}";

    /// <summary>"open", "fret 3".</summary>
    public static string Fret(int fret) => fret == 0 ? "open" : $"fret {fret}";

    /// <summary>"hammer", "pull off", "slide", "choke".</summary>
    public static string Verb(SlurKind kind) =>
        kind switch
        {
            SlurKind.HammerOn => "hammer",
            SlurKind.PullOff => "pull off",
            SlurKind.Slide => "slide",
            _ => "choke",
        };
}
