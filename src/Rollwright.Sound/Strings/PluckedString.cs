namespace Rollwright.Sound.Strings;

/// <summary>
/// One string: two waveguides for its two polarizations. Across the membrane it moves the bridge: loud and soon gone.
/// Along the membrane it hardly moves it: soft and long. Together they make the banjo's two slopes of decay (Woodhouse
/// 2021, JASA 150:4375).
/// </summary>
internal sealed class PluckedString
{
    /// <summary>Waves below this magnitude (some −110 dB) are not heard.</summary>
    private const float Quiet = 1e-6f;

    private readonly StringVoice voice;
    private readonly double rate;
    private readonly double openHz;
    private readonly double openLength;
    private readonly double bridgeLoss;
    private readonly float alongShare;
    private readonly int roundTrip;
    private readonly Excitation excitation;
    private double semitones;
    private int quietFrames;

    /// <param name="voice">How it rings.</param>
    /// <param name="rate">Frames a second.</param>
    /// <param name="place">What the open string sounds, and how long it is.</param>
    /// <param name="bridgeLoss">Share of a wave that the bridge passes on to all strings.</param>
    /// <param name="alongShare">Strength of the slow polarization beside the fast one.</param>
    /// <param name="seed">For the scrape of the pick.</param>
    public PluckedString(
        StringVoice voice,
        double rate,
        OpenString place,
        double bridgeLoss,
        double alongShare,
        uint seed
    )
    {
        this.voice = voice;
        this.rate = rate;
        openHz = place.Hz;
        openLength = place.Length;
        this.bridgeLoss = bridgeLoss;
        this.alongShare = (float)alongShare;
        roundTrip = (int)(rate / openHz) + 1;
        // Silent until it is struck.
        quietFrames = roundTrip;
        excitation = new(rate, seed);
        Across = new(rate, openHz);
        Along = new(rate, openHz);
        Stop(0, 0);
    }

    public Waveguide Across { get; }

    public Waveguide Along { get; }

    /// <summary>Whether a round trip has passed without a wave to speak of; a string that no bridge moves stays so.</summary>
    public bool IsStill => quietFrames >= roundTrip;

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
        quietFrames = 0;
        excitation.Start(pluck, Hz, swinging, voice.BrightAt(semitones), voice.ThinAt(semitones));
    }

    /// <summary>Adds the pluck's force to the waves that go from the bridge, by polarization.</summary>
    public void Excite(Span<float> across, Span<float> along)
    {
        if (!excitation.IsSounding)
            return;
        excitation.AddTo(across, 1);
        excitation.AddTo(along, alongShare);
        excitation.Advance(across.Length);
    }

    /// <summary>Counts the frames in which nothing is heard of what arrives.</summary>
    public void Listen(ReadOnlySpan<float> across, ReadOnlySpan<float> along)
    {
        var loudest = Math.Max(PeakOf(across), PeakOf(along));
        quietFrames = loudest < Quiet && !excitation.IsSounding ? quietFrames + across.Length : 0;
    }

    private static float PeakOf(ReadOnlySpan<float> values)
    {
        var peak = 0f;
        foreach (var value in values)
            peak = Math.Max(peak, Math.Abs(value));
        return peak;
    }

    private double Hz => openHz * Math.Pow(2, semitones / 12);
}
