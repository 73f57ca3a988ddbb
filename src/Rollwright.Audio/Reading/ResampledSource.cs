using NAudio.Dsp;

namespace Rollwright.Audio.Reading;

/// <summary>A sound at another rate, by the windowed-sinc interpolation of NAudio's resampler; nothing is moved in time.</summary>
internal sealed class ResampledSource : ISoundSource
{
    private const int SincLength = 64;
    private const int SincPhases = 32;
    private const int BlockFrames = 4_096;

    private readonly ISoundSource source;
    private readonly WdlResampler resampler = new();
    private long taken;
    private long given;
    private bool isDry;

    public ResampledSource(ISoundSource source, int rate)
    {
        this.source = source;
        Rate = rate;
        resampler.SetMode(interp: true, filtercnt: 0, sinc: true, SincLength, SincPhases);
        resampler.SetFeedMode(false);
        resampler.SetRates(source.Rate, rate);
    }

    public int Rate { get; }

    public int Channels => source.Channels;

    public IReadOnlyList<string> Remarks => source.Remarks;

    public int Read(Span<float> values)
    {
        var wanted = Math.Min(values.Length / Channels, BlockFrames);
        while (wanted > 0)
        {
            // After the end silence is fed until all that was taken has come out.
            var owed = isDry ? (taken * Rate / source.Rate) - given : wanted;
            var count = (int)Math.Min(wanted, owed);
            if (count <= 0)
                return 0;
            var need = resampler.ResamplePrepare(count, Channels, out var room);
            var read = Feed(room[..(need * Channels)]);
            taken += read / Channels;
            room[read..(need * Channels)].Clear();
            if (isDry && taken * Rate / source.Rate <= given)
                return 0;
            var made = resampler.ResampleOut(values, need, count, Channels);
            if (isDry)
                made = (int)Math.Min(made, (taken * Rate / source.Rate) - given);
            given += made;
            if (made > 0)
                return made * Channels;
        }
        return 0;
    }

    public void Dispose() => source.Dispose();

    private int Feed(Span<float> room)
    {
        var filled = 0;
        while (filled < room.Length && !isDry)
        {
            var read = source.Read(room[filled..]);
            isDry = read == 0;
            filled += read;
        }
        return filled;
    }
}
