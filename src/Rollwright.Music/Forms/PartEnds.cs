using System.Collections.Immutable;

namespace Rollwright.Music.Forms;

/// <summary>Where parts end.</summary>
/// <param name="bars">Of some bars that follow each other, the marks and whether it is short in front; places are counted from 0.</param>
public sealed class PartEnds(ImmutableArray<(BarMarks Marks, bool IsPickup)> bars)
{
    /// <summary>
    /// Whether a part (or the piece) is over before the bar of that place. A pickup leads into a part and never ends one,
    /// whatever line is drawn behind it.
    /// </summary>
    public bool Before(int place)
    {
        if (place >= bars.Length)
            return true;
        if (place == 0 || bars[place - 1].IsPickup)
            return false;
        var next = bars[place].Marks;
        if (next.Part is not null || next.RepeatStart)
            return true;
        var last = bars[place - 1].Marks;
        return next.EndingStart.IsEmpty && (last.SectionEnd || last.RepeatEnd > 1) && !IsInEnding(place);
    }

    /// <summary>Whether an ending that began before the bar of that place goes on in it.</summary>
    public bool IsInEnding(int place)
    {
        for (var i = place - 1; i >= 0; i--)
        {
            var marks = bars[i].Marks;
            if (marks.ClosesEnding)
                return false;
            if (!marks.EndingStart.IsEmpty)
                return true;
        }
        return false;
    }
}
