namespace Rollwright.Audio.Stretching;

/// <summary>
/// Where something is struck: the power of the sound differentiated twice, which favours the bright beginning of a note, rises
/// suddenly over what it was just before. Too many do no harm here: around each the sound is copied as it is.
/// </summary>
internal static class Attacks
{
    private const double BlockSeconds = 0.0015;
    private const double Before = 0.012;
    private const double Apart = 0.025;
    private const double Rise = 2;

    // Below this part of the loudest, nothing is an attack.
    private const double Floor = 1e-4;

    /// <param name="sound">One channel.</param>
    /// <param name="rate">Frames a second.</param>
    /// <returns>Frames, ascending.</returns>
    public static List<int> Find(ReadOnlySpan<float> sound, int rate)
    {
        var block = Math.Max(4, (int)(BlockSeconds * rate));
        var powers = Powers(sound, block);
        var loudest = powers.Length == 0 ? 0 : powers.Max();
        var (before, apart) = ((int)(Before * rate / block), (int)(Apart * rate / block));
        var found = new List<int>();
        var last = -apart;
        for (var i = 1; i < powers.Length; i++)
        {
            if (powers[i] <= Floor * loudest)
                continue;
            var most = 0.0;
            for (var j = Math.Max(0, i - before); j < i; j++)
                most = Math.Max(most, powers[j]);
            if (powers[i] <= Rise * most)
                continue;
            if (i - last < apart)
            {
                // What was taken for an attack was the noise before a stronger one.
                if (powers[i] < Rise * powers[last])
                    continue;
                found.RemoveAt(found.Count - 1);
            }
            found.Add(First(sound, i * block, block));
            last = i;
        }
        return found;
    }

    // The frame in a block where it begins, for stretching multiplies what is left out here.
    private static int First(ReadOnlySpan<float> sound, int start, int length)
    {
        var most = 0f;
        for (var i = Math.Max(1, start); i < start + length; i++)
            most = Math.Max(most, Math.Abs(sound[i] - sound[i - 1]));
        for (var i = Math.Max(1, start); i < start + length; i++)
            if (Math.Abs(sound[i] - sound[i - 1]) >= most / 2)
                return i;
        return start;
    }

    private static double[] Powers(ReadOnlySpan<float> sound, int block)
    {
        var powers = new double[sound.Length / block];
        var (before, earlier) = (0f, 0f);
        for (var i = 0; i < powers.Length; i++)
        {
            foreach (var value in sound.Slice(i * block, block))
            {
                var difference = (double)value - (2 * before) + earlier;
                powers[i] += difference * difference;
                (before, earlier) = (value, before);
            }
        }
        return powers;
    }
}
