using System.Collections.Immutable;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Pitching;

/// <summary>
/// What becomes of a note when another begins: how much weaker its partials are afterwards, those that no other note of the
/// last moments has. A string that is plucked or stopped anew ends what it sounded.
/// </summary>
internal static class FallFinder
{
    // Notes from longer ago have mostly died away, and share their partials with too many others.
    private const int Moments = 9;
    private const double Longest = 2.5;

    // The upper ones die away by themselves.
    private const int Partials = 8;

    // Nearer partials are seen as one, in bins of the window's main lobe.
    private const double Apart = 2.5;

    // Below this there is only noise.
    private const double Silent = 1e-6;

    /// <returns>By beginning.</returns>
    public static List<ImmutableArray<Moment.Fall>> Of(List<NoteFinder.Explained> beginnings, NoteTemplates templates)
    {
        var found = new List<ImmutableArray<Moment.Fall>>();
        for (var i = 0; i < beginnings.Count; i++)
        {
            var falls = ImmutableArray.CreateBuilder<Moment.Fall>();
            var sounding = new List<int>(beginnings[i].Best.Notes);
            var rise = beginnings[i].Rise;
            for (var j = i - 1; j >= 0 && j >= i - Moments; j--)
            {
                var began = beginnings[j].Rise.Onset.Time;
                if (rise.Onset.Time - began > Longest)
                    break;
                foreach (var note in beginnings[j].Best.Notes)
                {
                    var others = sounding.Concat(beginnings[j].Best.Notes.Where(other => other != note)).ToList();
                    if (!sounding.Contains(note) && Change(note, others, rise, templates) is { } decibels)
                        falls.Add(new(began, templates.Lowest + note, decibels));
                }
                sounding.AddRange(beginnings[j].Best.Notes);
            }
            found.Add(falls.ToImmutable());
        }
        return found;
    }

    // Mean of its own partials, the louder ones the more; null where it has none of its own.
    private static double? Change(int note, List<int> others, Rise rise, NoteTemplates templates)
    {
        var (sum, whole) = (0.0, 0.0);
        foreach (var place in templates.PlacesOf(note).Take(Partials))
        {
            var bin = (int)Math.Round(place);
            if (
                bin >= rise.Before.Length
                || others.Exists(other => templates.PlacesOf(other).Any(p => Math.Abs(p - place) < Apart))
            )
                continue;
            var (before, later) = (Silent + (double)rise.Before[bin], Silent + (double)rise.Later[bin]);
            sum += before * 20 * Math.Log10(later / before);
            whole += before;
        }
        return whole > 0 ? sum / whole : null;
    }
}
