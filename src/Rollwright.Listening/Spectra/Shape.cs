namespace Rollwright.Listening.Spectra;

/// <summary>A spectrum that is zero but for a few bins: what one note looks like.</summary>
/// <param name="Bins">Ascending.</param>
/// <param name="Values">Of those bins; they sum to 1, or to 0 where the note lies above all bins.</param>
internal sealed record Shape(int[] Bins, double[] Values);
