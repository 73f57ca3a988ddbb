using System.Xml.Linq;
using Rollwright.Music.Forms;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads repeats and endings.</summary>
internal static class BarLineReader
{
    public static BarMarks Read(XElement barLine, BarMarks marks)
    {
        var repeat = barLine.Element("repeat");
        var direction = (string?)repeat?.Attribute("direction");
        if (direction == "forward")
            marks = marks with { RepeatStart = true };
        else if (direction == "backward")
            marks = marks with { RepeatEnd = Passes((string?)repeat!.Attribute("times")) ?? 2 };
        else if ((string?)barLine.Element("bar-style") is "light-light" or "light-heavy" or "heavy-heavy")
            marks = marks with { SectionEnd = true };
        return Ending(barLine.Element("ending"), marks);
    }

    private static BarMarks Ending(XElement? ending, BarMarks marks)
    {
        if (ending is null)
            return marks;
        if ((string?)ending.Attribute("type") != "start")
            return marks with { EndingStop = true };
        var passes = ((string?)ending.Attribute("number") ?? "")
            .Split(',')
            .Select(Passes)
            .OfType<int>()
            .Distinct()
            .Order();
        return marks with { EndingStart = [.. passes] };
    }

    private static int? Passes(string? text) =>
        int.TryParse(text, out var value) && value is >= 1 and <= Unfolding.MostPasses ? value : null;
}
