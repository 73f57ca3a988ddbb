namespace Rollwright.Audio.Reading;

/// <summary>What lies between two times of a sound.</summary>
internal sealed class CutSource(ISoundSource source, double from, double until) : ISoundSource
{
    private readonly float[] passedOver = new float[16_384 * source.Channels];
    private long position;

    public int Rate => source.Rate;

    public int Channels => source.Channels;

    public IReadOnlyList<string> Remarks => source.Remarks;

    public int Read(Span<float> values)
    {
        var first = (long)Math.Min(from * Rate, long.MaxValue / 2);
        while (position < first)
        {
            var count = (int)Math.Min(first - position, passedOver.Length / Channels);
            var skipped = source.Read(passedOver.AsSpan(0, count * Channels));
            if (skipped == 0)
                return 0;
            position += skipped / Channels;
        }
        var last = (long)Math.Min(until * Rate, long.MaxValue / 2);
        var room = (int)Math.Min(values.Length / Channels, Math.Max(0, last - position));
        if (room == 0)
            return 0;
        var read = source.Read(values[..(room * Channels)]);
        position += read / Channels;
        return read;
    }

    public void Dispose() => source.Dispose();
}
