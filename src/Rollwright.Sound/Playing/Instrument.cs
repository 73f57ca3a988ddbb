using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Sound.Body;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Playing;

/// <summary>
/// Five strings that meet at the bridge, and the body that the bridge drives. The bridge yields a little: a share of
/// what arrives goes back along every string, so that open strings ring along with what agrees with them. The junction
/// is lossless or lossy for any input (J. O. Smith, 'Physical Audio Signal Processing', coupled strings), so no
/// setting can make it howl.
/// </summary>
internal sealed class Instrument
{
    /// <summary>Share of an arriving wave that the yielding bridge spreads over each string (an assumption).</summary>
    private const float BridgeYield = 0.004f;

    private readonly BanjoString[] strings;
    private readonly ModalBody body;
    private readonly float[] acrossArriving = new float[Neck.Strings * Waveguide.Block];
    private readonly float[] along = new float[Waveguide.Block];
    private readonly float[] force = new float[Waveguide.Block];
    private readonly float[] bridge = new float[Waveguide.Block];

    public Instrument(Setting setting, int rate, int seed)
    {
        strings = new BanjoString[Neck.Strings];
        for (var i = 0; i < strings.Length; i++)
        {
            var key = setting.SoundingKeyOf(i + 1, 0);
            var nut = i + 1 == Neck.ShortString ? Neck.ShortStringStart : 0;
            strings[i] = new(
                StringVoice.All[i],
                rate,
                440 * Math.Pow(2, (key - 69) / 12.0),
                Neck.ScaleLength - Neck.Place(nut + setting.Capo),
                BridgeYield,
                unchecked(((uint)seed * 2_654_435_761u) ^ ((uint)(i + 1) * 40_503u))
            );
        }
        body = new(BodyMode.All, rate);
    }

    public void Do(HandEvent act)
    {
        var banjoString = strings[act.String - 1];
        switch (act.Act)
        {
            case HandAct.Stop:
                banjoString.Stop(act.Above, act.Ramp);
                break;
            case HandAct.Pluck:
                banjoString.Start(act.Pluck);
                break;
            case HandAct.Touch:
                banjoString.Touch(act.Ramp);
                break;
            default:
                banjoString.Release();
                break;
        }
    }

    /// <summary>The next frames, at most <see cref="Waveguide.Block"/>.</summary>
    public void Sound(Span<float> left, Span<float> right)
    {
        var frames = left.Length;
        var total = force.AsSpan(0, frames);
        var yielding = bridge.AsSpan(0, frames);
        total.Clear();
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
            var slow = along.AsSpan(0, frames);
            strings[i].Along.Read(slow);
            for (var k = 0; k < frames; k++)
                across[k] -= BridgeYield * yielding[k];
            strings[i].Excite(across, slow);
            for (var k = 0; k < frames; k++)
                total[k] += across[k] + slow[k];
            strings[i].Across.Write(across);
            strings[i].Along.Write(slow);
        }
        body.Radiate(total, left, right);
    }

    private Span<float> Across(int index, int frames) => acrossArriving.AsSpan(index * Waveguide.Block, frames);
}
