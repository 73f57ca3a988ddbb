namespace Rollwright.Listening.Melodies;

/// <summary>The steady step under a line of notes, and at which half step each begins.</summary>
internal sealed record RhythmGrid(double Step, int[] Onsets, int[] Ends)
{
    /// <summary>Places in a step.</summary>
    public const int PerStep = 2;

    // Steps that dancers' tunes have: eighths from 100 to 420 ms (assumption).
    private const double ShortestStep = 0.1;
    private const double LongestStep = 0.42;

    // The longest step that explains nearly as much as the best one.
    private const double NearlyAsGood = 0.16;

    private const double Follow = 0.08;

    /// <param name="notes">At least one.</param>
    /// <param name="given">Seconds of a step where it is known.</param>
    public static RhythmGrid Of(IReadOnlyList<MelodyNote> notes, double? given)
    {
        var onsets = notes.Select(note => note.Onset).ToArray();
        var step = given is { } known ? Finer(onsets, known, 0.06) : Found(onsets);
        var places = new int[onsets.Length];
        var ends = new int[onsets.Length];
        // The grid follows the player: its time and its step are drawn after what is heard.
        var (time, now, place) = (onsets[0], step, 0);
        for (var i = 0; i < onsets.Length; i++)
        {
            var away = (onsets[i] - time) / now;
            // A whole step is likelier than a half.
            var whole = Math.Round(away);
            var half = Math.Floor(away) + 0.5;
            var chosen = Math.Abs(away - whole) <= 0.31 ? whole : half;
            // From a half step the next whole one is as likely again.
            if (i > 0)
                chosen = Math.Max(chosen, (places[i - 1] + 1 - place) / (double)PerStep);
            places[i] = place + (int)Math.Round(chosen * PerStep);
            var error = onsets[i] - time - (chosen * now);
            if (chosen == whole && whole > 0)
            {
                now = Math.Clamp(now + (Follow * error / whole), 0.8 * step, 1.25 * step);
                time += (whole * now) + (0.5 * error);
                place = places[i];
            }
            ends[i] = Math.Max(places[i] + 1, place + (int)Math.Round((notes[i].End - time) / now * PerStep));
        }
        return new(step, places, ends);
    }

    private static double Found(double[] onsets)
    {
        var steps = Enumerable
            .Range(0, 400)
            .Select(i => ShortestStep * Math.Pow(LongestStep / ShortestStep, i / 399.0))
            .ToArray();
        var fits = steps.Select(step => Fit(onsets, step)).ToArray();
        var enough = fits.Max() - NearlyAsGood;
        var best = 0;
        for (var i = 0; i < steps.Length; i++)
            if (
                fits[i] >= enough
                && (i == 0 || fits[i] >= fits[i - 1])
                && (i == fits.Length - 1 || fits[i] >= fits[i + 1])
            )
                best = i;
        return Finer(onsets, steps[best], 0.01);
    }

    private static double Finer(double[] onsets, double step, double most) =>
        Enumerable.Range(-20, 41).Select(i => step * (1 + (most * i / 20))).MaxBy(one => Fit(onsets, one));

    // How nearly the times between an onset and the next few are whole steps: 1 all of them, 0 by chance.
    private static double Fit(double[] onsets, double step)
    {
        var (sum, count) = (0.0, 0);
        for (var i = 0; i < onsets.Length; i++)
        for (var j = i + 1; j < Math.Min(onsets.Length, i + 5); j++)
        {
            sum += Math.Cos(2 * Math.PI * (onsets[j] - onsets[i]) / step);
            count++;
        }
        return count == 0 ? 0 : sum / count;
    }
}
