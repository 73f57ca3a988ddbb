namespace Rollwright.MelodyHearing;

/// <summary>What became of the notes that were not heard right, so that one sees what to mend.</summary>
internal static class Losses
{
    // Farther off, a note of the same pitch is another one.
    private const double Near = 0.15;
    private const double Right = 0.05;

    public sealed record Tune(
        IReadOnlyList<(double Onset, int Key)> Truth,
        IReadOnlyList<(double Onset, int Key)> Heard
    );

    /// <summary>Shares of all notes, and how late a heard note of the right pitch begins.</summary>
    public static string Of(IReadOnlyList<Tune> tunes)
    {
        var (all, early, late, octave, other, none, again, added) = (0, 0, 0, 0, 0, 0, 0, 0);
        var off = new List<double>();
        foreach (var (truth, heard) in tunes)
        {
            var used = new bool[heard.Count];
            all += truth.Count;
            foreach (var (onset, key) in truth)
            {
                var near = Enumerable
                    .Range(0, heard.Count)
                    .Where(i => !used[i] && Math.Abs(heard[i].Onset - onset) <= Near)
                    .OrderBy(i => heard[i].Key == key ? 0 : 1)
                    .ThenBy(i => Math.Abs(heard[i].Onset - onset))
                    .ToList();
                if (near.Count == 0)
                {
                    none++;
                    continue;
                }
                var (at, heardKey) = heard[near[0]];
                if (heardKey == key)
                {
                    used[near[0]] = true;
                    off.Add(at - onset);
                    early += at - onset < -Right ? 1 : 0;
                    late += at - onset > Right ? 1 : 0;
                }
                else if ((heardKey - key) % 12 == 0)
                    octave++;
                else
                    other++;
            }
            for (var i = 0; i < heard.Count; i++)
                if (!used[i] && i > 0 && heard[i].Key == heard[i - 1].Key)
                    again++;
                else if (!used[i])
                    added++;
        }
        off.Sort();
        string Share(int count) => $"{100.0 * count / Math.Max(1, all):0.0} %";
        double At(double part) => 1000 * off[(int)(part * (off.Count - 1))];
        return $"of {all} notes {Share(early)} more than 50 ms early, {Share(late)} late, {Share(octave)} an octave off, {Share(other)} another pitch, "
            + $"{Share(none)} not at all; heard and not played {Share(again)} of the pitch before, {Share(added)} of another; right pitches begin {At(0.5):0} ms late (5 to 95 of 100: {At(0.05):0} to {At(0.95):0})";
    }
}
