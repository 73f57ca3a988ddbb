using System.Globalization;
using Rollwright.Audio.Reading;
using Rollwright.Cli.Commands;

namespace Rollwright.Cli.Files;

/// <summary>A recording as it is listened to: one channel at one rate, in blocks; and what was amiss with it.</summary>
internal sealed class Recording : IDisposable
{
    /// <summary>Frames a second: nothing above 6 kHz is looked at, and this holds what is below 10.</summary>
    public const int ListeningRate = 22_050;

    // Below this a recording lacks what is looked at.
    private const int PoorRate = 12_000;

    // A few plateaus are heard by nobody (assumption).
    private const double ClippingWorthSaying = 0.0001;

    private readonly string name;
    private readonly ClippingWatch watch;

    /// <param name="path">A file; "-" is standard input.</param>
    /// <param name="from">Seconds where listening begins.</param>
    /// <param name="until">Seconds where it ends; infinity is the end.</param>
    /// <exception cref="RequestException">There is no such file, or no sound is found in it.</exception>
    public Recording(string path, double from, double until)
    {
        name = InputFile.NameOf(path);
        watch = new(SoundInput.Open(path).Between(from, until));
        Sound = watch.ToMono().AtRate(ListeningRate);
    }

    public ISoundSource Sound { get; }

    /// <summary>To be called once the sound was read; one line on standard error for each thing.</summary>
    /// <exception cref="RequestException">There was nothing to be heard.</exception>
    public void SayWhatWasAmiss()
    {
        foreach (var remark in watch.Remarks)
            Exit.Say($"{name}: {remark}");
        if (!watch.HasSound)
            throw new RequestException(
                $"{name}: there is no sound in what was asked for; record it again, or ask for another part"
            );
        if (watch.Rate < PoorRate)
            Exit.Say(
                $"{name}: recorded at {watch.Rate} frames a second, so nothing above {watch.Rate / 2_000.0:0.#} kHz is in it; record at 44100"
            );
        if (watch.Share >= ClippingWorthSaying)
            Exit.Say(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{name}: {Math.Max(0.01, 100 * watch.Share):0.##} % is clipped, first at {Moment.Text(watch.First!.Value)}; record it softer"
                )
            );
    }

    public void Dispose() => Sound.Dispose();
}
