using Rollwright.Audio;
using Rollwright.Sound;
using Rollwright.Sound.Playing;
using SkiaSharp;

namespace Rollwright.SoundPictures;

/// <summary>Two seconds of a roll: the waveform above, the spectrogram below, the strings between.</summary>
internal static class RollPicture
{
    private const double Seconds = 2;
    private const float WaveTop = 34;
    private const float WaveHeight = 120;
    private const float SpectrumTop = 190;
    private const float SpectrumHeight = 234;
    private const double HighestHz = 8_000;

    // Shades are few and cells are broad, so that the file is small.
    private const int Shades = 14;
    private const int Cell = 3;
    private const double Darkest = -20;
    private const double Lightest = -76;

    public static byte[] Draw(double halvesAMinute)
    {
        var played = Music.Roll(4, halvesAMinute);
        var sound = Synth.Render(played);
        using var plate = new Plate(460);
        plate.Text($"Forward roll on the open strings, half note = {halvesAMinute:0}", Plate.Left, 20, 14);
        Wave(plate, sound);
        Strings(plate, Timeline.Of(played, new()));
        Spectrum(plate, sound);
        for (var tenth = 0; tenth <= 20; tenth += 5)
            plate.Text($"{tenth / 10.0:0.0} s", Plate.X(tenth / 10.0 / Seconds), 446, 12, Align(tenth));
        return plate.Png();
    }

    private static SKTextAlign Align(int tenth) =>
        tenth == 0 ? SKTextAlign.Left
        : tenth == 20 ? SKTextAlign.Right
        : SKTextAlign.Center;

    private static void Wave(Plate plate, Samples sound)
    {
        var middle = WaveTop + (WaveHeight / 2);
        for (var x = (int)Plate.Left; x < Plate.Width - Plate.Right; x++)
        {
            var from = (int)((x - Plate.Left) / (Plate.X(1) - Plate.Left) * Seconds * sound.Rate);
            var to = (int)((x + 1 - Plate.Left) / (Plate.X(1) - Plate.Left) * Seconds * sound.Rate);
            float least = 0,
                most = 0;
            foreach (var value in sound.Interleaved[from..to])
                (least, most) = (Math.Min(least, value), Math.Max(most, value));
            plate.Line(x, middle - (most * WaveHeight / 2), x, middle - (least * WaveHeight / 2), Plate.Ink);
        }
        plate.Text("wave", 8, middle + 4, 12);
    }

    private static void Strings(Plate plate, Timeline timeline)
    {
        plate.Text("string", 8, 173, 12);
        foreach (var (seconds, played, _) in timeline.Strokes.Where(stroke => stroke.Seconds < Seconds - 0.02))
        {
            var x = Plate.X(seconds / Seconds);
            plate.Line(x, 162, x, 180, Plate.Faint);
            plate.Text($"{played.Stroke.String}", x + 4, 174, 12);
        }
    }

    private static void Spectrum(Plate plate, Samples sound)
    {
        var bottom = SpectrumTop + SpectrumHeight;
        for (var x = Plate.Left; x < Plate.Width - Plate.Right; x += Cell)
        {
            var middle = (x + (Cell / 2f) - Plate.Left) / (Plate.X(1) - Plate.Left) * Seconds * sound.Rate;
            var levels = Spectrogram.At(sound.Interleaved, (int)middle);
            for (var bin = 0; Spectrogram.Hz(bin, sound.Rate) < HighestHz; bin++)
            {
                var share = Math.Clamp((levels[bin] - Lightest) / (Darkest - Lightest), 0, 1);
                var shade = (int)Math.Round(share * Shades) / (float)Shades;
                var top = bottom - (float)(Spectrogram.Hz(bin + 1, sound.Rate) / HighestHz * SpectrumHeight);
                var height = (float)(Spectrogram.Hz(1, sound.Rate) / HighestHz * SpectrumHeight) + 0.5f;
                if (shade > 0)
                    plate.Dot(x, Math.Max(SpectrumTop, top), Cell, height, Between(shade));
            }
        }
        for (var hz = 0; hz <= HighestHz; hz += 2_000)
            plate.Text(
                hz == 0 ? "0" : $"{hz / 1000} kHz",
                8,
                bottom + 4 - (hz / (float)HighestHz * SpectrumHeight),
                12
            );
    }

    private static SKColor Between(float shade) =>
        new(
            (byte)(Plate.Paper.Red + ((Plate.Ink.Red - Plate.Paper.Red) * shade)),
            (byte)(Plate.Paper.Green + ((Plate.Ink.Green - Plate.Paper.Green) * shade)),
            (byte)(Plate.Paper.Blue + ((Plate.Ink.Blue - Plate.Paper.Blue) * shade))
        );
}
