using System.Collections.Immutable;
using Rollwright.Listening.Beside.Following;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>
/// Notes heard, put where their attacks begin; without those that hardly rise above what rings already: echoes of a room and ghosts
/// of the ear, which would draw the alignment away. A soft slur that goes with them is found again where it was meant.
/// </summary>
internal static class SoundedNotes
{
    public static ImmutableArray<HeardNote> Of(
        ImmutableArray<HeardNote> notes,
        Sounding sounding,
        CancellationToken stop
    )
    {
        var together = TakeTable.Of("together");
        HeardNote[] heard = [.. notes.OrderBy(note => note.Onset)];
        var gestures = Gesture.Join([.. heard.Select(note => (note.Onset, note.Pitch))], together);
        var attacks = new List<(double Onset, double Height, double Rise)>(gestures.Count);
        for (var i = 0; i < gestures.Count; i++)
        {
            stop.ThrowIfCancellationRequested();
            var at = gestures[i].At;
            var (onset, height) =
                sounding.Attack(at - TakeTable.Of("look-back"), at + TakeTable.Of("look-on")) ?? (at, 0);
            var next = i + 1 < gestures.Count ? gestures[i + 1].At - TakeTable.Of("look-on") : sounding.Duration;
            attacks.Add((onset, height, sounding.Rise(onset, next).Sum()));
        }
        var usualRise = Median(attacks.Select(attack => attack.Rise));
        var usualHeight = Median(attacks.Select(attack => attack.Height));
        var usualLag = Median(attacks.Select((attack, i) => gestures[i].At - attack.Onset));
        var placed = ImmutableArray.CreateBuilder<HeardNote>();
        for (var i = 0; i < gestures.Count; i++)
        {
            if (attacks[i].Rise < TakeTable.Of("faint-heard") * usualRise)
                continue;
            // What slides has no attack: then the ear's own time is taken, as late as it usually is.
            var isSoft = attacks[i].Height < TakeTable.Of("soft") * usualHeight;
            var onset = Math.Max(0, isSoft ? gestures[i].At - usualLag : attacks[i].Onset);
            foreach (var note in gestures[i].Notes)
                placed.Add(heard[note] with { Onset = onset });
        }
        return placed.ToImmutable();
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
    }
}
