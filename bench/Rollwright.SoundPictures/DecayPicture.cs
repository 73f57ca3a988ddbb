using Rollwright.Sound;
using SkiaSharp;

namespace Rollwright.SoundPictures;

/// <summary>How three notes die away, with the two straight lines that each level follows.</summary>
internal static class DecayPicture
{
    private const double Seconds = 4;
    private const float Top = 36;
    private const float Height = 300;
    private const double Lowest = -70;

    public static byte[] Draw()
    {
        using var plate = new Plate(388);
        plate.Text("The level of three notes after the pluck: steep, then slow", Plate.Left, 20, 14);
        for (var level = 0; level >= Lowest; level -= 10)
        {
            plate.Line(Plate.Left, Y(level), Plate.Width - Plate.Right, Y(level), Plate.Faint, 0.5f);
            plate.Text($"{level} dB".Replace('-', '−'), 8, Y(level) + 4, 12);
        }
        for (var second = 0; second <= 4; second++)
            plate.Text(
                $"{second} s",
                Plate.X(second / Seconds),
                Top + Height + 30,
                12,
                second == 0 ? SKTextAlign.Left
                    : second == 4 ? SKTextAlign.Right
                    : SKTextAlign.Center
            );
        Note(plate, 4, 0, "string 4 open", new(0x8a, 0x4b, 0x2a));
        Note(plate, 1, 0, "string 1 open", new(0x2f, 0x5d, 0x62));
        Note(plate, 1, 12, "string 1 fret 12", Plate.Ink);
        return plate.Png();
    }

    private static void Note(Plate plate, int banjoString, int fret, string name, SKColor colour)
    {
        var sound = Synth.Render(Music.Note(banjoString, fret, 6));
        // Mean squares of 20 ms, a hop of 10: fast enough for the attack, slow enough for the beating of strings.
        var (width, hop) = (sound.Rate / 50, sound.Rate / 100);
        var levels = new List<double>();
        for (var from = 0; from + width < Seconds * sound.Rate; from += hop)
        {
            var sum = 0.0;
            foreach (var value in sound.Interleaved.Slice(from, width))
                sum += value * value;
            levels.Add(10 * Math.Log10((sum / width) + 1e-12));
        }
        var loudest = levels.Max();
        var start = levels.IndexOf(loudest);
        var points = levels
            .Select((level, i) => (X: Plate.X(i / 100.0 / Seconds), Level: level - loudest))
            .Where(point => point.Level > Lowest)
            .Select(point => new SKPoint(point.X, Y(point.Level)))
            .ToList();
        plate.Curve(points, colour, 1.8f);
        var fast = Slope(plate, levels, start, loudest, -3, -15, colour);
        var slow = Slope(plate, levels, start, loudest, -20, -40, colour);
        var row =
            banjoString == 4 ? 0
            : fret == 0 ? 1
            : 2;
        plate.Line(560, Top + 22 + (row * 22), 590, Top + 22 + (row * 22), colour, 2.5f);
        plate.Text($"{name}: {fast:0.0} s, then {slow:0.0} s to −60 dB", 598, Top + 26 + (row * 22), 13);
    }

    // The line through the levels between two marks, drawn a little beyond them; its time to −60 dB.
    private static double Slope(
        Plate plate,
        List<double> levels,
        int start,
        double loudest,
        double upper,
        double lower,
        SKColor colour
    )
    {
        var from = levels.FindIndex(start, level => level <= loudest + upper);
        var to = levels.FindIndex(from, level => level <= loudest + lower);
        to = to < 0 ? levels.Count - 1 : to;
        var seconds = Enumerable.Range(from, to - from + 1).Select(i => i / 100.0).ToList();
        var heights = seconds.Select((_, i) => levels[from + i] - loudest).ToList();
        var (meanX, meanY) = (seconds.Average(), heights.Average());
        var slope =
            seconds.Zip(heights, (x, y) => (x - meanX) * (y - meanY)).Sum()
            / seconds.Sum(x => (x - meanX) * (x - meanX));
        double At(double x) => meanY + (slope * (x - meanX));
        var (first, last) = (seconds[0], Math.Min(Seconds, seconds[^1] + 0.25));
        plate.Line(
            Plate.X(first / Seconds),
            Y(At(first)),
            Plate.X(last / Seconds),
            Y(Math.Max(Lowest, At(last))),
            colour,
            1,
            dashed: true
        );
        return -60 / slope;
    }

    private static float Y(double level) => Top + (float)(level / Lowest * Height);
}
