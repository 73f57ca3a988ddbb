using System.Text;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Web.Words;

/// <summary>A lick as five lines of tab and a line of fingers: what would be played.</summary>
public static class LickText
{
    private const int Strings = 5;

    public static string Of(LickPlace place)
    {
        ArgumentNullException.ThrowIfNull(place);
        var lines = Enumerable.Range(0, Strings).Select(_ => new StringBuilder("|")).ToArray();
        var fingers = new StringBuilder(" ");
        foreach (var done in place.Path)
        {
            var cells = Enumerable.Range(1, Strings).Select(on => CellOf(done, on)).ToArray();
            var letters = string.Concat(done.Event.Plucks.Select(pluck => pluck.Finger));
            var width = 2 + Math.Max(letters.Length, cells.Max(cell => cell.Length));
            for (var i = 0; i < Strings; i++)
                lines[i].Append('-').Append(cells[i].PadRight(width - 1, '-'));
            fingers.Append(' ').Append(letters.PadRight(width - 1));
        }
        return string.Join('\n', lines.Select(line => $"{line}-|").Append(fingers.ToString().TrimEnd()));
    }

    /// <summary>"2", "2s4" for a slide within the step, "h2" where the left hand alone plays, "" where the string is silent.</summary>
    private static string CellOf(PathStep done, int on)
    {
        if (done.SlurString == on)
            return SlurNames.Letter(done.Slur!.Value) + done.Shape.FretOn(on);
        if (!done.Event.Plucks.Any(pluck => pluck.String == on))
            return "";
        var fret = $"{done.Shape.FretOn(on)}";
        return done is { HalfShape: { } half, HalfSlur: { } slur } && done.Event.Plucks[0].String == on
            ? $"{fret}{SlurNames.Letter(slur)}{half.FretOn(on)}"
            : fret;
    }
}
