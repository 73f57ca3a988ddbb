using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Words;

namespace Rollwright.Web.State.Hearing;

/// <summary>What the page's script is told: which stroke of the drawn tab sounds when, and what stands above it.</summary>
public static class DrawnTake
{
    /// <summary>Before the ids of the break that was meant, for the take is drawn on the same page.</summary>
    public const string MeantPrefix = "meant-";

    /// <param name="At">Seconds from the beginning of the recording.</param>
    /// <param name="Ids">In both drawings, the wide and the narrow one.</param>
    public sealed record Stroke(double At, IReadOnlyList<string> Ids);

    public sealed record Mark(string Id, string Text);

    public static IReadOnlyList<Stroke> Strokes(TakeDesk desk)
    {
        ArgumentNullException.ThrowIfNull(desk);
        return desk is { Heard: { Break: { } written } heard }
            ?
            [
                .. heard
                    .Notes.Where(note => note.Bar is not null)
                    .GroupBy(note => note.Onset)
                    .OrderBy(together => together.Key)
                    .Select(together => new Stroke(
                        together.Key,
                        [.. together.SelectMany(note => Ids("", NameOf(written, note)))]
                    )),
            ]
            : [];
    }

    public static IReadOnlyList<Mark> Marks(TakeDesk desk)
    {
        ArgumentNullException.ThrowIfNull(desk);
        var doubts = desk is { Heard: { Break: { } written } heard }
            ? heard
                .Notes.Where(note => note.Bar is not null && note.Confidence < Doubt.Sure)
                .SelectMany(note => Ids("", NameOf(written, note)).Select(id => new Mark(id, "?")))
            : [];
        var faults = desk.Beside is { } beside
            ? TakeMarks
                .Of(beside.Found)
                .SelectMany(mark => Ids(MeantPrefix, mark.Key).Select(id => new Mark(id, mark.Value)))
            : [];
        return [.. doubts, .. faults];
    }

    /// <summary>The bars most worth working on, where they were played: words for a button, and seconds.</summary>
    public static IEnumerable<(string Words, double From, double Until)> WorkOn(Break meant, Comparison found)
    {
        ArgumentNullException.ThrowIfNull(meant);
        ArgumentNullException.ThrowIfNull(found);
        var order = meant.Order;
        foreach (var written in found.WorkOn)
        {
            var times = found
                .Bars.Where(bar => order[bar.Bar] == written && bar is { From: not null, WholeNote: not null })
                .ToList();
            if (times.Count == 0)
                continue;
            var last = times[^1];
            var length = meant.Bars[written].Length.ToDouble() * last.WholeNote!.Value;
            yield return (
                $"Hear bar {meant.Numbering[written].Name} of the take, slowly",
                Math.Max(0, last.From!.Value - 0.1),
                last.From.Value + length
            );
        }
    }

    private static StrokeName? NameOf(Break written, Listening.Takes.HeardNote note)
    {
        var strokes = written.Bars[note.Bar!.Value].Strokes;
        for (var i = 0; i < strokes.Length; i++)
            if (strokes[i].At == note.At && strokes[i].String == note.String)
                return new(note.Bar.Value, i);
        return null;
    }

    private static IEnumerable<string> Ids(string prefix, StrokeName? name) =>
        name is { } stroke ? [$"{prefix}s-{stroke}", $"{prefix}{Drawing.NarrowPrefix}s-{stroke}"] : [];
}
