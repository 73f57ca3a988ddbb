using System.Runtime.Intrinsics;

namespace Rollwright.Recognition;

/// <summary>
/// Adds up, over the notes of a tune, what each is worth where it falls on what was heard, for all twelve transpositions
/// at once, and takes the best transposition and the best shift of up to a bar either way (pickups differ).
/// </summary>
internal sealed class Alignment
{
    private const int Lanes = 16;

    // worth[((step * 12) + pitchClass) * Lanes + transposition]
    private readonly float[] worth;
    private readonly float[] outside = new float[12 * Lanes];
    private readonly int steps;
    private readonly int reach;

    /// <param name="heard">What the notes are laid on.</param>
    /// <param name="hit">Worth of a note whose pitch class starts there, by that pitch class.</param>
    /// <param name="miss">Worth of a note whose pitch class does not, or that lies beyond the ends.</param>
    public Alignment(Heard heard, Func<int, double> hit, Func<int, double> miss)
    {
        steps = heard.Steps.Length;
        reach = heard.StepsInBar;
        worth = new float[steps * 12 * Lanes];
        for (var pitchClass = 0; pitchClass < 12; pitchClass++)
        {
            for (var moved = 0; moved < 12; moved++)
            {
                var sounding = (pitchClass + moved) % 12;
                var (right, wrong) = ((float)hit(sounding), (float)miss(sounding));
                outside[(pitchClass * Lanes) + moved] = wrong;
                for (var step = 0; step < steps; step++)
                    worth[(((step * 12) + pitchClass) * Lanes) + moved] =
                        (heard.Steps[step] >> sounding & 1) != 0 ? right : wrong;
            }
        }
    }

    /// <summary>The best sum over transpositions and shifts.</summary>
    public double Best(Onset[] onsets)
    {
        var best = float.MinValue;
        Span<float> sums = stackalloc float[Lanes];
        for (var shift = -reach; shift <= reach; shift++)
        {
            var sum = Vector512<float>.Zero;
            foreach (var (step, pitchClass) in onsets)
            {
                var at = step + shift;
                sum +=
                    at >= 0 && at < steps
                        ? Vector512.LoadUnsafe(ref worth[((at * 12) + pitchClass) * Lanes])
                        : Vector512.LoadUnsafe(ref outside[pitchClass * Lanes]);
            }
            sum.CopyTo(sums);
            for (var moved = 0; moved < 12; moved++)
                best = Math.Max(best, sums[moved]);
        }
        return best;
    }
}
