using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>Which notes stand under one beam.</summary>
internal static class Beaming
{
    /// <summary>
    /// The stretch of a bar that a beam may cover: the half bar of four quarters, so that a roll's eighths stand in
    /// fours; the dotted quarter of compound metres; otherwise the quarter (common practice).
    /// </summary>
    public static Fraction Stretch(TimeSignature time)
    {
        if (time.IsCompound)
            return time.Beat;
        if (time.Bar == new Fraction(1))
            return new(1, 2);
        return time.Unit == 8 && time.Beats == 3 ? time.Bar : new(1, 4);
    }

    /// <summary>Numbers the beams of a bar.</summary>
    public static ImmutableArray<WrittenMoment> Join(List<WrittenMoment> moments, Fraction offset, TimeSignature time)
    {
        var stretch = Stretch(time);
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
