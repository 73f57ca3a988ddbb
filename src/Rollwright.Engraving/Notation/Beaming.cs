using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>Which notes stand under one beam.</summary>
internal static class Beaming
{
    /// <summary>Numbers the beams of a bar.</summary>
    public static ImmutableArray<WrittenMoment> Join(List<WrittenMoment> moments, Fraction offset, TimeSignature time)
    {
        var stretch = time.BeamGroup;
        var beams = 0;
        var start = 0;
        while (start < moments.Count)
        {
            var end = start + 1;
            if (CanBeam(moments[start]))
            {
                var place = Place(start);
                while (end < moments.Count && CanBeam(moments[end]) && Place(end) == place)
                    end++;
                if (end - start > 1)
                {
                    for (var i = start; i < end; i++)
                        moments[i] = moments[i] with { Beam = beams };
                    beams++;
                }
            }
            start = end;
        }
        return [.. moments];

        long Place(int index) => ((moments[index].At + offset) / stretch).Floor();
    }

    private static bool CanBeam(WrittenMoment moment) => !moment.IsRest && moment.Value.Flags > 0;
}
