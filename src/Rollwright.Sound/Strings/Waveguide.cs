using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Rollwright.Sound.Strings;

/// <summary>
/// One polarization of one string as a single delay loop: a fractional delay of one round trip, read by fifth-order
/// Lagrange interpolation (Laakso, Välimäki, Karjalainen and Laine 1996, 'Splitting the unit delay'), and the loss of
/// that trip. Works in blocks shorter than the delay, so that a whole block can be read before any of it is written.
/// </summary>
internal sealed class Waveguide
{
    /// <summary>Frames a block holds at most: below the shortest round trip, 37 frames at 1,175 Hz and 44.1 kHz.</summary>
    public const int Block = 16;

    /// <summary>
    /// Points that a value is interpolated from. With four, the partials above 5 kHz of high notes were gone within
    /// milliseconds wherever the delay fell half way between two frames.
    /// </summary>
    private const int Taps = 6;

    private readonly int kept;
    private readonly int room;
    private readonly float[] line;
    private readonly double rate;
    private readonly float[] taps = new float[Taps];
    private int write;
    private double delay;
    private double delayStep;
    private double targetDelay;
    private int rampLeft;
    private float damping = 1;
    private float dampingStep;
    private int dampingLeft;
    private float gain;
    private float pole;
    private float state;
    private int whole;

    /// <param name="rate">Frames a second.</param>
    /// <param name="lowestHz">The lowest pitch it will be tuned to: a round trip of it must be kept.</param>
    public Waveguide(double rate, double lowestHz)
    {
        this.rate = rate;
        kept = (int)(rate / lowestHz) + Block + 8;
        // Moved back to the front when it is full, which is the rarer the longer it is.
        room = Math.Max(8 * kept, 4_096);
        line = new float[room + Block + 8];
        write = kept;
    }

    /// <summary>Whether the pitch or the touch is changing, which takes the exact but slower path.</summary>
    private bool IsMoving => rampLeft > 0 || dampingLeft > 0 || damping != 1;

    /// <summary>Tunes the loop: the delay that is left when the loss filter's own delay is taken off.</summary>
    /// <param name="hz">The fundamental, exact within the interpolation's error (far below a cent under 2 kHz).</param>
    /// <param name="loss">The loss of one round trip at that pitch.</param>
    /// <param name="ramp">Frames over which the delay moves there; 0 at once.</param>
    public void Tune(double hz, LossFilter loss, int ramp)
    {
        gain = (float)loss.Gain;
        pole = (float)loss.Pole;
        targetDelay = Math.Clamp((rate / hz) - loss.PhaseDelay(hz, rate), Block + 3, kept - 8);
        if (ramp == 0 || delay == 0)
        {
            SetDelay(targetDelay);
            rampLeft = 0;
        }
        else
        {
            rampLeft = ramp;
            delayStep = (targetDelay - delay) / ramp;
        }
    }

    /// <summary>A finger touches the string: the loop's gain goes to <paramref name="to"/> within a ramp.</summary>
    public void Damp(float to, int ramp)
    {
        dampingLeft = ramp;
        dampingStep = (to - damping) / ramp;
    }

    /// <summary>The finger leaves at once.</summary>
    public void Free()
    {
        damping = 1;
        dampingLeft = 0;
    }

    /// <summary>What arrives at the bridge in the next frames; up to <see cref="Block"/> of them.</summary>
    public void Read(Span<float> arriving)
    {
        if (IsMoving)
            ReadMoving(arriving);
        else
            ReadStill(arriving);
    }

    /// <summary>Sends the reflected waves back along the string.</summary>
    public void Write(ReadOnlySpan<float> reflected)
    {
        reflected.CopyTo(line.AsSpan(write));
        write += reflected.Length;
        if (write > room)
        {
            line.AsSpan(write - kept, kept).CopyTo(line);
            write = kept;
        }
    }

    // Always computes a whole block: the values past the end are garbage that nobody reads, and cost nothing.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void ReadStill(Span<float> arriving)
    {
        Span<float> interpolated = stackalloc float[Block];
        ref var start = ref MemoryMarshal.GetArrayDataReference(line);
        var at = write - whole;
        var t0 = Vector256.Create(taps[0]);
        var t1 = Vector256.Create(taps[1]);
        var t2 = Vector256.Create(taps[2]);
        var t3 = Vector256.Create(taps[3]);
        var t4 = Vector256.Create(taps[4]);
        var t5 = Vector256.Create(taps[5]);
        for (var k = 0; k < Block; k += 8)
        {
            var from = (nuint)(at + k);
            var sum =
                (t0 * Vector256.LoadUnsafe(ref start, from + 2))
                + (t1 * Vector256.LoadUnsafe(ref start, from + 1))
                + (t2 * Vector256.LoadUnsafe(ref start, from))
                + (t3 * Vector256.LoadUnsafe(ref start, from - 1))
                + (t4 * Vector256.LoadUnsafe(ref start, from - 2))
                + (t5 * Vector256.LoadUnsafe(ref start, from - 3));
            sum.CopyTo(interpolated[k..]);
        }
        var s = state;
        for (var k = 0; k < arriving.Length; k++)
        {
            s = (gain * interpolated[k]) + (pole * s);
            arriving[k] = s;
        }
        // Numbers too small to hear cost the processor dearly on some machines.
        state = Math.Abs(s) < 1e-20f ? 0 : s;
    }

    private void ReadMoving(Span<float> arriving)
    {
        for (var k = 0; k < arriving.Length; k++)
        {
            if (rampLeft > 0)
                SetDelay(--rampLeft == 0 ? targetDelay : delay + delayStep);
            if (dampingLeft > 0)
            {
                dampingLeft--;
                damping += dampingStep;
            }
            var at = write + k - whole;
            var x = 0f;
            for (var tap = 0; tap < Taps; tap++)
                x += taps[tap] * line[at + 2 - tap];
            state = (gain * x) + (pole * state);
            arriving[k] = state * damping;
        }
    }

    // Lagrange coefficients for a delay between the two middle taps, where they lose least.
    private void SetDelay(double frames)
    {
        delay = frames;
        whole = (int)frames;
        var d = frames - whole + 2;
        for (var tap = 0; tap < Taps; tap++)
        {
            var h = 1.0;
            for (var other = 0; other < Taps; other++)
            {
                if (other != tap)
                    h *= (d - other) / (tap - other);
            }
            taps[tap] = (float)h;
        }
    }
}
