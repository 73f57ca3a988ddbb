using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Rollwright.Sound.Body;
using Rollwright.Sound.Playing;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Instruments;

/// <summary>
/// Strings that meet at the bridge, and the body that the bridge drives. The bridge yields a little: a share of
/// what arrives goes back along every string, so that open strings ring along with what agrees with them. The junction
/// is lossless or lossy for any input (J. O. Smith, 'Physical Audio Signal Processing', coupled strings), so no
/// setting can make it howl.
/// </summary>
internal sealed class Instrument
{
    private readonly PluckedString[] strings;
    private readonly ModalBody body;
    private readonly float yield;
    private readonly float[] acrossArriving;
    private readonly float[] along = new float[Waveguide.Block];
    private readonly float[] force = new float[Waveguide.Block];
    private readonly float[] bridge = new float[Waveguide.Block];
    private readonly double rate;

    public Instrument(InstrumentVoice voice, ImmutableArray<OpenString> open, int rate, int seed)
    {
        this.rate = rate;
        yield = (float)voice.Yield;
        strings = new PluckedString[open.Length];
        acrossArriving = new float[open.Length * Waveguide.Block];
        for (var i = 0; i < strings.Length; i++)
        {
            var own = unchecked(((uint)seed * 2_654_435_761u) ^ ((uint)(i + 1) * 40_503u));
            strings[i] = new(voice.Strings[i], rate, open[i], voice.Yield, voice.Along, own);
        }
        body = new(voice.Body, voice.Direct, rate);
    }

    public void Do(HandEvent act)
    {
        var plucked = strings[act.String - 1];
        var ramp = act.Ramp <= 0 ? 0 : Math.Max(1, (int)(act.Ramp * rate));
        switch (act.Act)
        {
            case HandAct.Stop:
                plucked.Stop(act.Above, ramp);
                break;
            case HandAct.Pluck:
                plucked.Start(act.Pluck);
                break;
            case HandAct.Touch:
                plucked.Touch(ramp);
                break;
            default:
                plucked.Release();
                break;
        }
    }

    /// <summary>The next frames, at most <see cref="Waveguide.Block"/>.</summary>
    public void Sound(Span<float> left, Span<float> right)
    {
        var frames = left.Length;
        var total = force.AsSpan(0, frames);
        total.Clear();
        if (yield == 0)
            SoundApart(total);
        else
            SoundTogether(total);
        body.Radiate(total, left, right);
    }

    // The bridge must know what arrives along every string before any of it goes back.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void SoundTogether(Span<float> total)
    {
        var frames = total.Length;
        var yielding = bridge.AsSpan(0, frames);
        yielding.Clear();
        for (var i = 0; i < strings.Length; i++)
        {
            var arriving = Across(i, frames);
            strings[i].Across.Read(arriving);
            for (var k = 0; k < frames; k++)
                yielding[k] += arriving[k];
        }
        for (var i = 0; i < strings.Length; i++)
        {
            var across = Across(i, frames);
            for (var k = 0; k < frames; k++)
                across[k] -= yield * yielding[k];
            Finish(strings[i], across, total);
        }
    }

    // Over a bridge that does not yield, strings that are still cost nothing.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void SoundApart(Span<float> total)
    {
        var frames = total.Length;
        foreach (var plucked in strings)
        {
            if (plucked.IsStill)
                continue;
            var across = Across(0, frames);
            plucked.Across.Read(across);
            plucked.Listen(across, Finish(plucked, across, total));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private ReadOnlySpan<float> Finish(PluckedString plucked, Span<float> across, Span<float> total)
    {
        var slow = along.AsSpan(0, across.Length);
        plucked.Along.Read(slow);
        plucked.Excite(across, slow);
        for (var k = 0; k < across.Length; k++)
            total[k] += across[k] + slow[k];
        plucked.Across.Write(across);
        plucked.Along.Write(slow);
        return slow;
    }

    private Span<float> Across(int index, int frames) => acrossArriving.AsSpan(index * Waveguide.Block, frames);
}
