namespace Rollwright.EndToEnd.Playing;

/// <summary>How alike two sounds are when one is scaled to the other: a player cannot know the peak of what is to come.</summary>
/// <param name="Apart">One less the correlation.</param>
/// <param name="Difference">The greatest, in full scale of the second.</param>
internal readonly record struct Likeness(double Apart, double Difference)
{
    public static Likeness Of(ReadOnlySpan<float> heard, ReadOnlySpan<float> wanted)
    {
        double hw = 0,
            hh = 0,
            ww = 0;
        for (var i = 0; i < wanted.Length; i++)
        {
            hw += (double)heard[i] * wanted[i];
            hh += (double)heard[i] * heard[i];
            ww += (double)wanted[i] * wanted[i];
        }
        var difference = 0.0;
        for (var i = 0; i < wanted.Length; i++)
            difference = Math.Max(difference, Math.Abs((hw / hh * heard[i]) - wanted[i]));
        return new(1 - (hw / Math.Sqrt(hh * ww)), difference);
    }
}
