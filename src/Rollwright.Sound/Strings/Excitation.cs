namespace Rollwright.Sound.Strings;

/// <summary>
/// The force that a pluck sends to the bridge and into the loop: a kink from the pick and its mirror from the far side,
/// βP frames later and of the other sign, which thins every partial that has a node at the pick (the pick-position comb
/// of Jaffe and Smith 1983); the whole is rounded by the pick's width and by the string's stiffness.
/// </summary>
internal sealed class Excitation
{
    private const int Longest = 2_048;
    private readonly double rate;
    private readonly float[] shape = new float[Longest];
    private int length;
    private int at = Longest;
    private uint noise;

    public Excitation(double rate, uint seed)
    {
        this.rate = rate;
        noise = seed == 0 ? 1 : seed;
    }

    public bool IsSounding => at < length;

    /// <param name="pluck">How the string is set going.</param>
    /// <param name="hz">The string's fundamental.</param>
    /// <param name="lengthOfString">Millimetres that swing.</param>
    /// <param name="bright">Hz, above which the spectrum falls by 6 dB an octave.</param>
    /// <param name="thin">Hz, below which it falls by as much.</param>
    public void Start(Pluck pluck, double hz, double lengthOfString, double bright, double thin)
    {
        var period = rate / hz;
        // High on the neck the pick comes near the middle of what swings, never past it.
        var mirror = Math.Clamp(pluck.FromBridge / lengthOfString, 0.02, 0.5) * period;
        var tail = (int)(rate / bright * 2);
        var width = Math.Max(1.5, rate / pluck.Sharpness);
        length = Math.Min(Longest, (int)mirror + tail + (int)width + 2);
        at = 0;
        var fall = Math.Exp(-2 * Math.PI * bright / rate);
        var click = Math.Exp(-1 / (0.0012 * rate));
        var body = Math.Exp(-2 * Math.PI * thin / rate);
        double held = 0,
            low = 0,
            energy = 0;
        for (var k = 0; k < length; k++)
        {
            held = (fall * held) + Kink(k, width) - Kink(k - mirror, width);
            low = (body * low) + ((1 - body) * held);
            var force = held - low;
            shape[k] = (float)force;
            energy += force * force;
        }
        // The same energy whatever its colour: a wound string would else drown the others.
        var level = pluck.Force / Math.Sqrt(energy);
        var scrape = pluck.Scrape * pluck.Force;
        for (var k = 0; k < length; k++)
        {
            shape[k] = (float)((level * shape[k]) + (scrape * Noise()));
            scrape *= click;
        }
    }

    /// <summary>Adds the force of the next frames; the first frame sounds at once.</summary>
    public void AddTo(Span<float> block, float share)
    {
        var count = Math.Min(block.Length, length - at);
        for (var k = 0; k < count; k++)
            block[k] += share * shape[at + k];
    }

    public void Advance(int frames) => at = Math.Min(length, at + frames);

    // A raised cosine of the pick's width with the area 1: the same push however sharp the pick.
    private static double Kink(double k, double width) =>
        k < 0 || k >= width ? 0 : (1 - Math.Cos(2 * Math.PI * (k + 0.5) / width)) / width;

    // xorshift32 (Marsaglia 2003): the same seed scrapes the same way.
    private double Noise()
    {
        noise ^= noise << 13;
        noise ^= noise >> 17;
        noise ^= noise << 5;
        return (noise / 2_147_483_648.0) - 1;
    }
}
