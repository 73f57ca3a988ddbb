namespace Rollwright.Sound.Strings;

/// <summary>
/// One string: two waveguides for its two polarizations. Across the membrane it moves the bridge: loud and soon gone.
/// Along the membrane it hardly moves it: soft and long. Together they make the banjo's two slopes of decay (Woodhouse
/// 2021, JASA 150:4375).
/// </summary>
internal sealed class BanjoString
{
    /// <summary>Strength of the slow polarization beside the fast one, about −15 dB (fitted to measured slopes).</summary>
    public const float SlowShare = 0.18f;

    private readonly StringVoice voice;
    private readonly double rate;
    private readonly double openHz;
    private readonly double openLength;
    private readonly double bridgeLoss;
    private readonly Excitation excitation;
    private double semitones;

    /// <param name="voice">How it rings.</param>
    /// <param name="rate">Frames a second.</param>
    /// <param name="openHz">What the open string sounds, capo included.</param>
    /// <param name="openLength">Millimetres that the open string swings, capo included.</param>
    /// <param name="bridgeLoss">Share of a wave that the bridge passes on to all strings.</param>
    /// <param name="seed">For the scrape of the pick.</param>
    public BanjoString(StringVoice voice, double rate, double openHz, double openLength, double bridgeLoss, uint seed)
    {
        this.voice = voice;
        this.rate = rate;
        this.openHz = openHz;
        this.openLength = openLength;
        this.bridgeLoss = bridgeLoss;
        excitation = new(rate, seed);
        Across = new(rate);
        Along = new(rate);
        Stop(0, 0);
    }

    public Waveguide Across { get; }

    public Waveguide Along { get; }

    /// <summary>Stops the string at so many semitones above open, without plucking it.</summary>
    /// <param name="above">0 open; fractions for a choke.</param>
    /// <param name="ramp">Frames that the change takes.</param>
    public void Stop(double above, int ramp)
    {
        semitones = above;
        var hz = Hz;
        var high = voice.High;
        Across.Tune(hz, LossFilter.Design(hz, rate, voice.FastAt(above), high, bridgeLoss), ramp);
        Along.Tune(hz, LossFilter.Design(hz, rate, voice.SlowAt(above), high * 1.6, 0), ramp);
    }

    /// <summary>A finger touches the string and takes its note away.</summary>
    public void Touch(int ramp)
    {
        Across.Damp(0.05f, ramp);
        Along.Damp(0.05f, ramp);
    }

    public void Release()
    {
        Across.Free();
        Along.Free();
    }

    public void Start(Pluck pluck)
    {
        Release();
        var swinging = openLength * Math.Pow(2, -semitones / 12);
        excitation.Start(pluck, Hz, swinging, voice.BrightAt(semitones));
    }

    /// <summary>Adds the pluck's force to the waves that go from the bridge, by polarization.</summary>
    public void Excite(Span<float> across, Span<float> along)
    {
        if (!excitation.IsSounding)
            return;
        excitation.AddTo(across, 1);
        excitation.AddTo(along, SlowShare);
        excitation.Advance(across.Length);
    }

    private double Hz => openHz * Math.Pow(2, semitones / 12);
}
