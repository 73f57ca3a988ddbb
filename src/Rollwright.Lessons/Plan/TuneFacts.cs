using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Plan;

/// <summary>What a tune is.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Kind">"reel", as the source says; may be empty.</param>
/// <param name="Key">The key that sounds, such as "A major".</param>
/// <param name="Time">"2/2".</param>
/// <param name="Form">Its parts as played: "A A B B".</param>
/// <param name="BarsPlayed">Full bars, repeats taken.</param>
/// <param name="Range">Lowest and highest note of the melody as the fiddle has it: "D4 to B5"; empty where it is not known.</param>
/// <param name="Rights">Whose it is.</param>
public sealed record TuneFacts(
    string Title,
    string Kind,
    string Key,
    string Time,
    string Form,
    int BarsPlayed,
    string Range,
    Rights Rights
)
{
    public static TuneFacts Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var numbering = played.Numbering;
        return new(
            played.Title,
            played.Tune?.Rhythm ?? "",
            played.Setting.SoundingKey.ToString(),
            played.Time.ToString(),
            string.Join(' ', BreakForm.Of(played).SelectMany(part => Enumerable.Repeat(part.Name, part.Times))),
            played.Order.Count(bar => !numbering[bar].IsShortInFront),
            RangeOf(played),
            Rights.Of(played)
        );
    }

    /// <summary>The same in sentences.</summary>
    public ImmutableArray<string> Sentences =>
        [
            $"{(Kind.Length > 0 ? $"A {Kind.ToLowerInvariant()}" : "A tune")} in {Key}, {Time}: {Form}, {BarsPlayed} bars as played.",
            .. Range.Length > 0 ? [$"The fiddle's melody goes from {Range}."] : Array.Empty<string>(),
            Rights.Words,
        ];

    private static string RangeOf(Break played)
    {
        if (played.Tune is not { } tune)
            return "";
        var pitches = tune.Bars.SelectMany(bar => bar.Notes).Select(note => note.Pitch).ToList();
        return pitches.Count == 0
            ? ""
            : $"{pitches.MinBy(pitch => pitch.Midi)} to {pitches.MaxBy(pitch => pitch.Midi)}";
    }
}
