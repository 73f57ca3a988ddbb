namespace Rollwright.Listening.Beside.Following;

/// <summary>
/// Where the notes of a stretch fall if they are played evenly: at each place a slight curve through the onsets around it, weighted by
/// nearness and again by how well they fit, so that one late note does not bend it (locally weighted regression, Cleveland
/// 1979).
/// </summary>
internal sealed class LocalTempo
{
    private const int Rounds = 2;

    private readonly double[] at;
    private readonly double[] seconds;
    private readonly double[] trust;
    private readonly double width = TakeTable.Of("smooth");
    private readonly double wholeNote;

    /// <param name="onsets">Whole notes and seconds, by time; at least one.</param>
    /// <param name="wholeNote">Seconds a whole note where there are only one or two onsets.</param>
    public LocalTempo(IReadOnlyList<(double At, double Seconds)> onsets, double wholeNote)
    {
        at = [.. onsets.Select(onset => onset.At)];
        seconds = [.. onsets.Select(onset => onset.Seconds)];
        trust = [.. onsets.Select(_ => 1.0)];
        this.wholeNote = wholeNote;
        for (var round = 0; round < Rounds; round++)
        {
            var away = at.Select((place, i) => Math.Abs(seconds[i] - Line(place, i).Seconds)).ToArray();
            var usual = Math.Max(0.005, away.Order().ElementAt(away.Length / 2));
            for (var i = 0; i < trust.Length; i++)
            {
                var u = Math.Min(1, away[i] / (6 * usual));
                trust[i] = Math.Max(1e-3, (1 - (u * u)) * (1 - (u * u)));
            }
        }
    }

    /// <summary>When a place is played, and seconds a whole note there.</summary>
    public (double Seconds, double WholeNote) Of(double place) => Line(place, -1);

    /// <summary>The same from all other onsets, the one at the place left out if there is one.</summary>
    public (double Seconds, double WholeNote) Without(double place) => Line(place, Array.BinarySearch(at, place));

    private (double Seconds, double WholeNote) Line(double place, int without)
    {
        // At the ends, and over rests, the line reaches as far as there is something to lean on.
        for (var reach = width; ; reach *= 2)
        {
            var (fit, count) = (new CurveFit(), 0);
            for (
                var i = Math.Max(0, LowerBound(place - (3 * reach)));
                i < at.Length && at[i] <= place + (3 * reach);
                i++
            )
            {
                if (i == without)
                    continue;
                var away = (at[i] - place) / reach;
                fit.Add(away, seconds[i], trust[i] * Math.Exp(-0.5 * away * away));
                count++;
            }
            if (count >= 3 && fit.Solve() is var (value, slope))
                return (value, slope / reach);
            if (reach > at[^1] - at[0] + Math.Abs(place - at[0]) + 1)
                return (NearestBy(place), wholeNote);
        }
    }

    // With one onset or two the tempo is that given.
    private double NearestBy(double place)
    {
        var nearest = Enumerable.Range(0, at.Length).MinBy(i => Math.Abs(at[i] - place));
        return seconds[nearest] + ((place - at[nearest]) * wholeNote);
    }

    private int LowerBound(double place)
    {
        var found = Array.BinarySearch(at, place);
        return found >= 0 ? found : ~found;
    }
}
