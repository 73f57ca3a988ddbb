namespace Rollwright.Audio.Reading;

/// <summary>
/// One channel of several: the mean of those that carry sound, or the louder where they cancel each other. It is judged by
/// all that was heard so far and some seconds ahead, so that a long sound is never held whole.
/// </summary>
internal sealed class MonoSource : ISoundSource
{
    /// <summary>A channel weaker than this beside the loudest carries nothing but noise (assumption: -40 dB).</summary>
    private const double Dead = 0.01;

    private const int SecondsAhead = 10;

    private readonly ISoundSource source;
    private readonly float[] ahead;
    private readonly double[] powers;
    private readonly float[] weights;
    private double sumPower;
    private int at;
    private int held;

    /// <param name="source">Two channels or more.</param>
    public MonoSource(ISoundSource source)
    {
        this.source = source;
        ahead = new float[source.Rate * SecondsAhead * source.Channels];
        powers = new double[source.Channels];
        weights = new float[source.Channels];
    }

    public int Rate => source.Rate;

    public int Channels => 1;

    public IReadOnlyList<string> Remarks => source.Remarks;

    public int Read(Span<float> values)
    {
        if (at == held && !Fill())
            return 0;
        var count = Math.Min(values.Length, (held - at) / source.Channels);
        for (var i = 0; i < count; i++)
        {
            var sum = 0f;
            for (var channel = 0; channel < weights.Length; channel++)
                sum += weights[channel] * ahead[at + (i * weights.Length) + channel];
            values[i] = sum;
        }
        at += count * source.Channels;
        return count;
    }

    public void Dispose() => source.Dispose();

    private bool Fill()
    {
        (at, held) = (0, 0);
        while (held < ahead.Length && source.Read(ahead.AsSpan(held)) is > 0 and var read)
            held += read;
        Measure();
        Judge();
        return held > 0;
    }

    private void Measure()
    {
        for (var frame = 0; frame < held; frame += powers.Length)
        {
            var sum = 0.0;
            for (var channel = 0; channel < powers.Length; channel++)
            {
                double value = ahead[frame + channel];
                powers[channel] += value * value;
                sum += value;
            }
            sumPower += sum * sum;
        }
    }

    private void Judge()
    {
        var loudest = powers.Max();
        var live = powers.Count(power => power > Dead * Dead * loudest);
        // Sides of opposite phase take each other away: then one of them says more than their mean.
        var cancels = live > 1 && sumPower / ((double)live * live) < 0.25 * loudest;
        var first = Array.IndexOf(powers, loudest);
        for (var channel = 0; channel < powers.Length; channel++)
            weights[channel] =
                live < 2 || cancels ? (channel == first ? 1 : 0)
                : powers[channel] > Dead * Dead * loudest ? 1f / live
                : 0;
    }
}
