namespace Rollwright.Audio.Reading;

/// <summary>Sources put behind each other.</summary>
public static class SoundSources
{
    /// <summary>One channel of several, see <see cref="MonoSource"/>.</summary>
    public static ISoundSource ToMono(this ISoundSource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return source.Channels == 1 ? source : new MonoSource(source);
    }

    /// <param name="rate">Frames a second, 1,000 to 384,000.</param>
    public static ISoundSource AtRate(this ISoundSource source, int rate)
    {
        ArgumentNullException.ThrowIfNull(source);
        return source.Rate == rate ? source : new ResampledSource(source, rate);
    }

    /// <summary>Only what lies between two times.</summary>
    /// <param name="from">Seconds, at least 0.</param>
    /// <param name="until">Seconds, after the first; infinity is the end.</param>
    public static ISoundSource Between(this ISoundSource source, double from, double until)
    {
        ArgumentNullException.ThrowIfNull(source);
        return from <= 0 && double.IsPositiveInfinity(until) ? source : new CutSource(source, from, until);
    }

    /// <summary>The sound in blocks of a second, each an array of its own.</summary>
    public static IEnumerable<float[]> Blocks(this ISoundSource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return Read();

        IEnumerable<float[]> Read()
        {
            var block = new float[source.Rate * source.Channels];
            for (int count; (count = source.Read(block)) > 0; )
                yield return block[..count];
        }
    }

    /// <summary>The sound as a value, up to a bound; what is beyond it is not read.</summary>
    /// <param name="mostFrames">At least 0.</param>
    public static Samples ReadAll(this ISoundSource source, int mostFrames)
    {
        ArgumentNullException.ThrowIfNull(source);
        var most = (int)
            Math.Min((long)mostFrames * source.Channels, Array.MaxLength - (Array.MaxLength % source.Channels));
        var values = new float[Math.Min(most, 65_536 * source.Channels)];
        var length = 0;
        while (length < most)
        {
            if (length == values.Length)
                Array.Resize(ref values, (int)Math.Min(most, 2L * values.Length));
            var read = source.Read(values.AsSpan(length));
            if (read == 0)
                break;
            length += read;
        }
        Array.Resize(ref values, length);
        return new(source.Rate, source.Channels, values);
    }
}
