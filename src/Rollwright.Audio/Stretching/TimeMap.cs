namespace Rollwright.Audio.Stretching;

/// <summary>
/// Which place of a sound is heard when, once it is stretched: every attack at its own stretched time, and around it one
/// frame a frame, so that it is copied whole and once; what lies between attacks makes up for that.
/// </summary>
internal sealed class TimeMap
{
    // (stretched, original) corners, ascending in both.
    private readonly List<(double Out, double In)> corners = [];
    private readonly List<(double From, double To)> copied = [];
    private int near;

    /// <param name="frames">Of the sound.</param>
    /// <param name="stretch">Stretched length over length.</param>
    /// <param name="attacks">Frames, ascending.</param>
    /// <param name="before">Frames that are copied before an attack, where the next one leaves room.</param>
    /// <param name="after">And behind it.</param>
    public TimeMap(int frames, double stretch, IReadOnlyList<int> attacks, double before, double after)
    {
        corners.Add((0, 0));
        for (var i = 0; i < attacks.Count; i++)
        {
            var at = attacks[i];
            // Speeding up, there is less room between two attacks than before.
            var scale = Math.Min(1, stretch);
            var earlier = Math.Min(before, 0.45 * scale * (at - (i == 0 ? 0 : attacks[i - 1])));
            var later = Math.Min(after, 0.45 * scale * ((i + 1 < attacks.Count ? attacks[i + 1] : frames) - at));
            Add(((at * stretch) - earlier, at - earlier));
            Add(((at * stretch) + later, at + later));
            copied.Add(((at * stretch) - earlier, (at * stretch) + later));
        }
        Add((frames * stretch, frames));
    }

    /// <summary>The place that is heard at a stretched time; times are asked for in ascending order.</summary>
    public double PlaceAt(double time)
    {
        while (near + 2 < corners.Count && corners[near + 1].Out <= time)
            near++;
        if (corners.Count < 2)
            return time;
        var ((fromOut, fromIn), (toOut, toIn)) = (corners[near], corners[near + 1]);
        return fromIn + ((time - fromOut) * (toIn - fromIn) / (toOut - fromOut));
    }

    /// <summary>Whether the sound is copied as it is at a stretched time.</summary>
    public bool IsCopied(double time)
    {
        var (low, high) = (0, copied.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (copied[middle].To < time)
                low = middle + 1;
            else
                high = middle;
        }
        return low < copied.Count && copied[low].From <= time;
    }

    private void Add((double Out, double In) corner)
    {
        if (corner.Out > corners[^1].Out && corner.In > corners[^1].In)
            corners.Add(corner);
    }
}
