using Rollwright.Banjo.Breaks;
using Rollwright.Music.Forms;
using Rollwright.Music.Tunes;
using Rollwright.Sound.Playing;

namespace Rollwright.Web.State;

/// <summary>What the page needs to follow the sound in the tab: when each stroke sounds and where in the form that is.</summary>
/// <param name="Seconds">Length of the music, without the ringing after it.</param>
/// <param name="Times">Seconds of each moment at which something is struck, ascending.</param>
/// <param name="Marks">At each of them, the drawing's ids of the strokes.</param>
/// <param name="BarTimes">Seconds at which each played bar starts, ascending.</param>
/// <param name="BarNames">Of each played bar, such as "part A, bar 3 of 18".</param>
public sealed record Follow(double Seconds, double[] Times, string[][] Marks, double[] BarTimes, string[] BarNames)
{
    public static Follow Of(Break played, Tempo tempo)
    {
        ArgumentNullException.ThrowIfNull(played);
        var timeline = Timeline.Of(played, new() { Tempo = tempo });
        var moments = timeline.Strokes.GroupBy(stroke => stroke.Seconds).OrderBy(moment => moment.Key).ToList();
        var barTimes = new List<double>();
        var barNames = new List<string>();
        var numbering = played.Numbering;
        var seconds = 0.0;
        foreach (var index in played.Order)
        {
            barTimes.Add(seconds);
            barNames.Add(NameOf(played, numbering, index));
            seconds += played.Bars[index].Length.ToDouble() * tempo.SecondsPerWhole;
        }
        return new(
            timeline.Seconds,
            [.. moments.Select(moment => Math.Round(moment.Key, 4))],
            [
                .. moments.Select(moment =>
                    moment.Select(stroke => $"s-{stroke.Played.Bar}-{stroke.Played.Index}").ToArray()
                ),
            ],
            [.. barTimes.Select(at => Math.Round(at, 4))],
            [.. barNames]
        );
    }

    private static string NameOf(Break played, BarNumbering numbering, int index)
    {
        var part = played.Bars.Take(index + 1).LastOrDefault(bar => bar.Marks.Part is not null)?.Marks.Part;
        var bar = $"bar {numbering[index].Name} of {numbering.Last}";
        return part is null ? bar : $"part {part}, {bar}";
    }
}
