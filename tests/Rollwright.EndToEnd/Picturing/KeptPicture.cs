using Rollwright.TestKit;
using SkiaSharp;

namespace Rollwright.EndToEnd.Picturing;

/// <summary>
/// A picture of the README or the handbook, which the program itself has made. Where what it makes today is another, the new
/// one is written to <c>out/pictures/</c>: look at it, then put it in the old one's place.
/// </summary>
internal static class KeptPicture
{
    /// <summary>What is not as it was kept; empty where it is.</summary>
    /// <param name="path">Of the picture, from <c>docs/</c>.</param>
    /// <param name="made">The one that was made now, PNG.</param>
    /// <param name="differing">Share of the points that may differ, 0 to 1. Edges are smoothed a little differently on other
    /// processors and by other browsers; a moved note and another word change more than the 0.002 that is usual.</param>
    public static string Difference(string path, byte[] made, double differing = 0.002)
    {
        var kept = Path.Combine(Places.Root, "docs", path);
        var share = File.Exists(kept) ? ShareThatDiffers(File.ReadAllBytes(kept), made) : 1;
        if (share < differing)
            return "";
        var fresh = Path.Combine(Places.Pictures, Path.GetFileName(path));
        File.WriteAllBytes(fresh, made);
        return $"docs/{path}: {100 * share:0.0} % of its points are others; the new one lies in out/pictures/{Path.GetFileName(path)}";
    }

    private static double ShareThatDiffers(byte[] kept, byte[] made)
    {
        using var one = SKBitmap.Decode(kept);
        using var other = SKBitmap.Decode(made);
        if (one.Width != other.Width || one.Height != other.Height)
            return 1;
        var different = one.Pixels.Zip(other.Pixels).Count(pair => Math.Abs(pair.First.Green - pair.Second.Green) > 48);
        return (double)different / one.Pixels.Length;
    }
}
