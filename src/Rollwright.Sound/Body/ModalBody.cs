using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Rollwright.Sound.Body;

/// <summary>
/// The body as parallel two-pole resonators driven by the force at the bridge: each the band-pass of constant peak gain
/// (1 − R²)/2 · (1 − z⁻²)/(1 − 2R cos θ z⁻¹ + R² z⁻²) (J. O. Smith, 'Introduction to Digital Filters', two-pole
/// resonators with zeros at 0 Hz and half the rate), R = exp(−π·hz/(Q·rate)). Sixteen at once, in two vectors. A little
/// of the force itself is heard beside them: the stiff upper end that sixteen modes do not reach.
/// </summary>
internal sealed class ModalBody
{
    private readonly float direct;
    private readonly float[] pull = new float[BodyMode.Most];
    private readonly float[] first = new float[BodyMode.Most];
    private readonly float[] second = new float[BodyMode.Most];
    private readonly float[] left = new float[BodyMode.Most];
    private readonly float[] right = new float[BodyMode.Most];
    private Vector256<float> lowBefore;
    private Vector256<float> lowTwoBefore;
    private Vector256<float> highBefore;
    private Vector256<float> highTwoBefore;
    private float before;
    private float twoBefore;

    /// <param name="modes">Its resonances, at most <see cref="BodyMode.Most"/>.</param>
    /// <param name="direct">Share of the force itself that is heard.</param>
    /// <param name="rate">Frames a second.</param>
    public ModalBody(ImmutableArray<BodyMode> modes, double direct, double rate)
    {
        this.direct = (float)direct;
        for (var i = 0; i < modes.Length; i++)
        {
            var mode = modes[i];
            var radius = Math.Exp(-Math.PI * mode.Hz / (mode.Q * rate));
            pull[i] = (float)((1 - (radius * radius)) / 2);
            first[i] = (float)(2 * radius * Math.Cos(2 * Math.PI * mode.Hz / rate));
            second[i] = (float)(-radius * radius);
            // Neighbours alternate in sign, as the modes of a driven point do not but those heard at a distance may:
            // without it the sum has no hollows between its peaks.
            var sign = i % 2 == 0 ? 1 : -1;
            left[i] = (float)(sign * mode.Level * (1 - (0.5 * mode.Side)));
            right[i] = (float)(sign * mode.Level * (1 + (0.5 * mode.Side)));
        }
    }

    /// <summary>What is heard of the force on the bridge.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Radiate(ReadOnlySpan<float> force, Span<float> toLeft, Span<float> toRight)
    {
        var pullLow = Vector256.Create(pull);
        var pullHigh = Vector256.Create(pull, 8);
        var firstLow = Vector256.Create(first);
        var firstHigh = Vector256.Create(first, 8);
        var secondLow = Vector256.Create(second);
        var secondHigh = Vector256.Create(second, 8);
        var leftLow = Vector256.Create(left);
        var leftHigh = Vector256.Create(left, 8);
        var rightLow = Vector256.Create(right);
        var rightHigh = Vector256.Create(right, 8);
        var (low1, low2, high1, high2) = (lowBefore, lowTwoBefore, highBefore, highTwoBefore);
        for (var k = 0; k < force.Length; k++)
        {
            var x = force[k];
            var drive = Vector256.Create(x - twoBefore);
            var low = (pullLow * drive) + (firstLow * low1) + (secondLow * low2);
            var high = (pullHigh * drive) + (firstHigh * high1) + (secondHigh * high2);
            var stiff = direct * (x - before);
            toLeft[k] = Vector256.Sum((low * leftLow) + (high * leftHigh)) + stiff;
            toRight[k] = Vector256.Sum((low * rightLow) + (high * rightHigh)) + stiff;
            (low2, low1, high2, high1) = (low1, low, high1, high);
            (twoBefore, before) = (before, x);
        }
        // A sound too small to hear would go on for ever in numbers that some processors are slow with.
        var quiet = Vector256.Create(1e-20f);
        lowBefore = Vector256.ConditionalSelect(Vector256.GreaterThan(Vector256.Abs(low1), quiet), low1, default);
        lowTwoBefore = Vector256.ConditionalSelect(Vector256.GreaterThan(Vector256.Abs(low2), quiet), low2, default);
        highBefore = Vector256.ConditionalSelect(Vector256.GreaterThan(Vector256.Abs(high1), quiet), high1, default);
        highTwoBefore = Vector256.ConditionalSelect(Vector256.GreaterThan(Vector256.Abs(high2), quiet), high2, default);
    }
}
