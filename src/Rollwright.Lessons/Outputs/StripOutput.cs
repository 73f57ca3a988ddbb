using System.Globalization;
using System.Text;
using Rollwright.Engraving.Png;
using Rollwright.Engraving.Svg;
using Rollwright.Lessons.Strips;

namespace Rollwright.Lessons.Outputs;

/// <summary>
/// The tab as one line to lay over a video: still, and as pictures, one a note, with a list of how long each is shown (a script of
/// ffmpeg's concat demuxer, which editors of videos can be given through it).
/// </summary>
public static class StripOutput
{
    /// <summary>The list of pictures.</summary>
    public const string List = "strip/strip.ffconcat";

    internal static IEnumerable<LessonFile> Make(Lesson lesson)
    {
        var strip = TabStrip.Of(lesson.Plan.Played, lesson.Times, lesson.Strip.IsLow);
        yield return new(
            "strip/strip.svg",
            Encoding.UTF8.GetBytes(
                SvgWriter.Write(strip.Layout, 0, new() { EmbedFonts = true, Plate = lesson.Strip.Plate })
            )
        );
        var pictures = new StripPictures(strip.Layout, lesson.Strip.Width, TabStrip.Seen, lesson.Strip.Plate);
        var painted = Stretches(strip)
            .AsParallel()
            .AsOrdered()
            .SelectMany(stretch => pictures.Paint(stretch[0].Left, stretch.Select(step => step.Mark)).ToList());
        var number = 0;
        foreach (var picture in painted)
            yield return new($"strip/{NameOf(number++)}", picture);
        yield return new(List, Encoding.UTF8.GetBytes(ListOf(strip)));
    }

    // Steps one after another of which the same part of the strip is seen.
    private static List<List<StripStep>> Stretches(TabStrip strip)
    {
        var stretches = new List<List<StripStep>>();
        foreach (var step in strip.Steps)
        {
            if (stretches.Count == 0 || stretches[^1][0].Left != step.Left)
                stretches.Add([]);
            stretches[^1].Add(step);
        }
        return stretches;
    }

    private static string NameOf(int number) =>
        string.Create(CultureInfo.InvariantCulture, $"frames/{number + 1:00000}.png");

    // The last picture stands there twice: its duration counts only so (FFmpeg Formats Documentation, concat).
    private static string ListOf(TabStrip strip)
    {
        var text = new StringBuilder("ffconcat version 1.0\n");
        for (var i = 0; i < strip.Steps.Length; i++)
            text.Append(
                CultureInfo.InvariantCulture,
                $"file {NameOf(i)}\nduration {strip.Steps[i].To - strip.Steps[i].From:0.000000}\n"
            );
        return text.Append($"file {NameOf(strip.Steps.Length - 1)}\n").ToString();
    }
}
