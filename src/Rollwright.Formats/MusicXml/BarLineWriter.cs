using System.Xml.Linq;
using Rollwright.Music.Forms;

namespace Rollwright.Formats.MusicXml;

/// <summary>Repeats and endings at the sides of a measure.</summary>
internal static class BarLineWriter
{
    public static XElement? Left(BarMarks marks)
    {
        if (!marks.RepeatStart && marks.EndingStart.IsEmpty)
            return null;
        return new(
            "barline",
            new XAttribute("location", "left"),
            marks.RepeatStart ? new XElement("bar-style", "heavy-light") : null,
            marks.EndingStart.IsEmpty ? null : Ending(marks.EndingStart, "start"),
            marks.RepeatStart ? new XElement("repeat", new XAttribute("direction", "forward")) : null
        );
    }

    /// <param name="marks">Of the bar.</param>
    /// <param name="ending">Passes of the ending that the bar is in; empty where it is in none.</param>
    /// <param name="isLast">Whether the tune ends here.</param>
    public static XElement? Right(BarMarks marks, IReadOnlyCollection<int> ending, bool isLast)
    {
        var repeats = marks.RepeatEnd > 1;
        var stops = marks.EndingStop && ending.Count > 0;
        if (!repeats && !stops && !marks.SectionEnd)
            return null;
        return new(
            "barline",
            new XAttribute("location", "right"),
            repeats || (marks.SectionEnd && isLast) ? new XElement("bar-style", "light-heavy")
                : marks.SectionEnd ? new XElement("bar-style", "light-light")
                : null,
            stops ? Ending(ending, repeats ? "stop" : "discontinue") : null,
            repeats
                ? new XElement(
                    "repeat",
                    new XAttribute("direction", "backward"),
                    marks.RepeatEnd > 2 ? new XAttribute("times", marks.RepeatEnd) : null
                )
                : null
        );
    }

    private static XElement Ending(IEnumerable<int> passes, string type) =>
        new("ending", new XAttribute("number", string.Join(", ", passes)), new XAttribute("type", type));
}
