namespace Rollwright.Audio.Reading;

/// <summary>
/// Passes a sound on and says how much of it is clipped: four or more values of a channel in a row that stand at the same
/// height near full scale, or beyond it. A loud sound that only touches full scale has no such plateaus.
/// </summary>
public sealed class ClippingWatch(ISoundSource source) : ISoundSource
{
    private const int ShortestRun = 4;
    private const float NearFull = 0.98f;
    private const float SameHeight = 1.6e-5f;

    private readonly float[] before = new float[source.Channels];
    private readonly int[] runs = new int[source.Channels];
    private long frames;
    private long first = -1;

    public int Rate => source.Rate;

    public int Channels => source.Channels;

    public IReadOnlyList<string> Remarks => source.Remarks;

    /// <summary>Values that stand in plateaus, of all channels, so far.</summary>
    public long Clipped { get; private set; }

    /// <summary>Whether anything came.</summary>
    public bool HasSound => frames > 0;

    /// <summary>How much of the values so far, 0 to 1.</summary>
    public double Share => frames == 0 ? 0 : (double)Clipped / frames / Channels;

    /// <summary>Seconds to the first plateau; null where there is none.</summary>
    public double? First => first < 0 ? null : (double)first / Rate;

    public int Read(Span<float> values)
    {
        var read = source.Read(values);
        for (var i = 0; i < read; i++)
            Watch(i % Channels, values[i], frames + (i / Channels));
        frames += read / Channels;
        return read;
    }

    public void Dispose() => source.Dispose();

    private void Watch(int channel, float value, long frame)
    {
        var isHigh = Math.Abs(value) >= NearFull;
        var goesOn =
            isHigh
            && (
                Math.Abs(value - before[channel]) <= SameHeight
                || (Math.Abs(value) > 1 && Math.Abs(before[channel]) > 1 && value * before[channel] > 0)
            );
        before[channel] = value;
        runs[channel] =
            goesOn ? runs[channel] + 1
            : isHigh ? 1
            : 0;
        if (runs[channel] < ShortestRun)
            return;
        if (first < 0)
            first = frame;
        Clipped += runs[channel] == ShortestRun ? ShortestRun : 1;
    }
}
