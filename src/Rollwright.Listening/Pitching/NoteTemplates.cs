using System.Collections.Immutable;
using Rollwright.Listening.Banjos;
using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>What a note of each pitch looks like in a spectrum: partials of a stiff string, each as wide as the window makes it.</summary>
internal sealed class NoteTemplates
{
    private readonly double[][] weights;
    private readonly double[][] places;
    private readonly int bins;

    // How many notes of the take what is known beforehand is worth.
    private readonly double known;

    /// <param name="bins">Bins of a spectrum.</param>
    /// <param name="binWidth">Hz from one to the next.</param>
    /// <param name="cents">How far the instrument is above a' = 440 Hz.</param>
    /// <param name="banjo">The banjo, where it was learnt.</param>
    public NoteTemplates(int bins, double binWidth, double cents, OwnBanjo? banjo = null)
    {
        known = banjo is null ? 1 : ListeningTable.Of("banjo-known");
        Lowest = (int)ListeningTable.Of("lowest");
        var (count, partials) = ((int)ListeningTable.Of("highest") - Lowest + 1, (int)ListeningTable.Of("partials"));
        var (stiffness, fall) = (ListeningTable.Of("stiffness"), ListeningTable.Of("fall"));
        this.bins = bins;
        (weights, places, Shapes) = (new double[count][], new double[count][], new Shape[count]);
        for (var note = 0; note < count; note++)
        {
            var f = 440 * Math.Pow(2, (Lowest + note - 69 + (cents / 100)) / 12);
            weights[note] =
                banjo?.Nearest(Lowest + note).ToArray()
                ?? [.. Enumerable.Range(0, partials).Select(k => Math.Pow(fall, k) * (1 - fall))];
            places[note] =
            [
                .. Enumerable.Range(1, partials).Select(k => k * f * Math.Sqrt(1 + (stiffness * k * k)) / binWidth),
            ];
            Draw(note);
        }
    }

    public int Lowest { get; }

    public int Count => Shapes.Length;

    /// <summary>By pitch from the lowest.</summary>
    public Shape[] Shapes { get; }

    /// <summary>Shares of the partials of a pitch, the first one first.</summary>
    public ImmutableArray<double> PartialsOf(int note) => [.. weights[note]];

    /// <summary>Where the partials of a pitch lie, in bins, the lowest first.</summary>
    public double[] PlacesOf(int note) => places[note];

    /// <summary>The shapes of several pitches, counted from the lowest.</summary>
    public Shape[] Of(IEnumerable<int> notes) => [.. notes.Select(note => Shapes[note])];

    /// <summary>
    /// Learns the partials of each pitch from what the take showed: one step of expectation and maximization, each rise
    /// shared out among the notes that explain it; near pitches are learnt from too, for a banjo's strings and body
    /// colour them alike.
    /// </summary>
    public void Learn(IReadOnlyList<NoteFinder.Explained> explained)
    {
        var heard = new double[Count][];
        for (var note = 0; note < Count; note++)
            heard[note] = new double[weights[note].Length];
        foreach (var item in explained)
        {
            // One note alone teaches what it looks like; of several, each share would be a guess.
            if (item.Best.Notes is not [var note])
                continue;
            for (var k = 0; k < heard[note].Length; k++)
                heard[note][k] += weights[note][k] * Share(note, k, item);
        }
        for (var note = 0; note < Count; note++)
        {
            var sum = weights[note].Select(weight => known * weight).ToArray();
            for (var other = 0; other < Count; other++)
            {
                var trust = Math.Exp(-0.5 * (other - note) * (other - note) / 0.5);
                for (var k = 0; k < sum.Length && trust > 1e-6; k++)
                    sum[k] += trust * heard[other][k];
            }
            var total = sum.Sum();
            weights[note] = [.. sum.Select(value => value / total)];
        }
        for (var note = 0; note < Count; note++)
            Draw(note);
    }

    private double Share(int note, int k, NoteFinder.Explained item)
    {
        var (place, share, whole) = (places[note][k], 0.0, 0.0);
        for (var bin = (int)Math.Ceiling(place - 2); bin <= place + 2; bin++)
        {
            if (bin < 0 || bin >= bins)
                continue;
            var lobe = Hann(bin - place);
            share += lobe * item.Rise.Spectrum[bin] / item.Model[bin];
            whole += lobe;
        }
        return whole <= 0 ? 0 : share / whole;
    }

    private void Draw(int note)
    {
        var shape = new SortedDictionary<int, double>();
        for (var k = 0; k < places[note].Length; k++)
        {
            var place = places[note][k];
            for (var bin = (int)Math.Ceiling(place - 2); bin <= place + 2; bin++)
                if (bin >= 0 && bin < bins)
                    shape[bin] = shape.GetValueOrDefault(bin) + (weights[note][k] * Hann(bin - place));
        }
        var sum = shape.Values.Sum();
        Shapes[note] = new([.. shape.Keys], [.. shape.Values.Select(value => sum > 0 ? value / sum : 0)]);
    }

    /// <summary>The main lobe of the Hann window's transform, 1 at its middle, 0 two bins away.</summary>
    private static double Hann(double x)
    {
        if (Math.Abs(x) < 1e-6)
            return 1;
        if (Math.Abs(Math.Abs(x) - 1) < 1e-6)
            return 0.5;
        return Math.Abs(Math.Sin(Math.PI * x) / (Math.PI * x) / (1 - (x * x)));
    }
}
