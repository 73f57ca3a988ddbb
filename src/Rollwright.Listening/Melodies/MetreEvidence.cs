namespace Rollwright.Listening.Melodies;

/// <summary>What happens at each step of a line: whether a note begins there, how long it lasts, whether it was leapt to.</summary>
internal static class MetreEvidence
{
    /// <summary>Nothing; then notes of a step, up to two, longer; the same leapt to by three semitones or more.</summary>
    public const int Kinds = 7;

    private const int Leap = 3;

    /// <param name="onsets">Places, ascending, from 0.</param>
    /// <param name="end">The place where the last note ends.</param>
    /// <param name="keys">Pitches.</param>
    /// <param name="perStep">Places in a step.</param>
    /// <returns>For each step from the first note's on, its kind.</returns>
    public static int[] Of(IReadOnlyList<int> onsets, int end, IReadOnlyList<int> keys, int perStep)
    {
        var kinds = new int[(onsets[^1] / perStep) + 1];
        for (var i = 0; i < onsets.Count; i++)
        {
            if (onsets[i] % perStep != 0)
                continue;
            var length = (i + 1 < onsets.Count ? onsets[i + 1] : end) - onsets[i];
            var kind =
                length <= perStep ? 1
                : length <= 2 * perStep ? 2
                : 3;
            var isLeap = i > 0 && Math.Abs(keys[i] - keys[i - 1]) >= Leap;
            kinds[onsets[i] / perStep] = kind + (isLeap ? 3 : 0);
        }
        return kinds;
    }
}
