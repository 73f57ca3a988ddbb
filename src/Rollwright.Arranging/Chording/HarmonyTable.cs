using System.Collections.Immutable;
using System.Text;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Chording;

/// <summary>The numbers of the model of chords, from <c>data/harmony.txt</c> and <c>data/harmony-changes.txt</c>.</summary>
internal sealed class HarmonyTable
{
    public HarmonyTable(double[] chords, double[] changes)
    {
        Chords = chords;
        Changes = changes;
    }

    /// <summary>Row by row, the 24 triads of each: how much it speaks for each (logarithms of odds).</summary>
    public double[] Chords { get; }

    /// <summary>How much each speaks for a change of chord (logarithms of odds).</summary>
    public double[] Changes { get; }

    public static HarmonyTable Empty() => new(new double[HarmonyRows.Count * Triad.Count], new double[HarmonyRows.ChangeNames.Length]);
}
