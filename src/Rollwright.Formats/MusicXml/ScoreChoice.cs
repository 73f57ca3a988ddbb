namespace Rollwright.Formats.MusicXml;

/// <summary>What of a score is wanted; what is null is chosen by the reader, which says so.</summary>
/// <param name="Part">Id or name of a part.</param>
/// <param name="Voice">A voice of the part as the file numbers it, mostly 1 to 4, or <see cref="AllVoices"/>.</param>
public sealed record ScoreChoice(string? Part = null, string? Voice = null)
{
    /// <summary>All voices together, notes that sound at once kept.</summary>
    public const string AllVoices = "all";

    public static ScoreChoice Any { get; } = new();
}
