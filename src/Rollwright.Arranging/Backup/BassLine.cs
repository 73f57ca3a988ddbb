using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Backup;

/// <summary>
/// The line that a part behind someone else hangs on: the root of the chord where a bar begins, its fifth at the half,
/// and before another chord two steps of the scale that lead to its root (common practice, no source).
/// </summary>
public static class BassLine
{
    /// <summary>The tune with this line for its melody; chords, bars and repeats stay.</summary>
    /// <param name="tune">A tune with chords, at its own pitch.</param>
    /// <param name="setting">Where the tune is played; the line lies on the low strings of it.</param>
    /// <param name="runs">Whether the line runs from chord to chord.</param>
    public static Tune Under(Tune tune, Setting setting, bool runs)
    {
        var bars = ImmutableArray.CreateBuilder<TuneBar>(tune.Bars.Length);
        Chord? chord = null;
        for (var index = 0; index < tune.Bars.Length; index++)
        {
            var bar = tune.Bars[index];
            var next = tune.Bars[(index + 1) % tune.Bars.Length];
            bars.Add(bar with { Notes = [.. Notes(tune, setting, bar, next, ref chord, runs)] });
        }
        return tune with { Title = $"{tune.Title} (backup)", Bars = bars.MoveToImmutable() };
    }

    /// <summary>The places of a bar where the bass plays: its halves, or only its beginning where it has none.</summary>
    public static ImmutableArray<Fraction> Places(TuneBar bar)
    {
        var half = bar.Time.Bar * new Fraction(1, 2);
        var hasHalves = bar.Time.Beats != 3 && (half % bar.Time.Step) == Fraction.Zero && bar.Length > half;
        return hasHalves ? [Fraction.Zero, half] : [Fraction.Zero];
    }

    private static List<Note> Notes(Tune tune, Setting setting, TuneBar bar, TuneBar next, ref Chord? chord, bool runs)
    {
        var notes = new List<Note>();
        // A pickup leads in: it keeps still.
        if (bar.IsPartial && bar.Length * 2 <= bar.Time.Bar)
            return notes;
        var places = Places(bar);
        for (var i = 0; i < places.Length; i++)
        {
            var end = i + 1 < places.Length ? places[i + 1] : bar.Length;
            var before = chord;
            foreach (var change in bar.Chords)
            {
                if (change.At <= places[i])
                    chord = change.Chord;
            }
            if (chord is not { } now)
                continue;
            var name = i > 0 && before == chord ? Fifth(now) : now.Bass ?? now.Root;
            var goal = next.Chords.IsEmpty || next.Chords[0].At > Fraction.Zero ? (Chord?)null : next.Chords[0].Chord;
            var quarter = (end - places[i]) * new Fraction(1, 2);
            var isLast = i + 1 == places.Length;
            if (
                runs
                && before == chord
                && isLast
                && i > 0
                && goal is { } leads
                && leads.Root != now.Root
                && (quarter % bar.Time.Step) == Fraction.Zero
            )
            {
                var (first, second) = Run(tune, setting, leads.Root);
                notes.Add(new(places[i], quarter, first));
                notes.Add(new(places[i] + quarter, end - places[i] - quarter, second));
                continue;
            }
            notes.Add(new(places[i], end - places[i], Low(tune, setting, name)));
        }
        return notes;
    }

    private static PitchName Fifth(Chord chord)
    {
        var tones = chord.PitchClasses;
        var fifth = tones.Length > 2 ? tones[2] : tones[^1];
        return Enumerable
            .Range(-3, 8)
            .Select(step => PitchName.FromFifths(chord.Root.Fifths + step))
            .First(name => name.PitchClass == fifth);
    }

    // Two notes of the scale below the goal, or above it where those would lie below the lowest string.
    private static (Pitch First, Pitch Second) Run(Tune tune, Setting setting, PitchName goal)
    {
        var target = Low(tune, setting, goal).Midi;
        var lowest = setting.Tuning.OpenOf(4) - Move(setting);
        var below = Enumerable
            .Range(1, 5)
            .Select(n => target - n)
            .Where(midi => tune.Key.Contains(midi % 12))
            .Take(2)
            .ToArray();
        var above = Enumerable
            .Range(1, 5)
            .Select(n => target + n)
            .Where(midi => tune.Key.Contains(midi % 12))
            .Take(2)
            .ToArray();
        var run = below[1] >= lowest ? below : above;
        return (Spelled(run[1]), Spelled(run[0]));

        Pitch Spelled(int midi) => Pitch.FromMidi(midi, tune.Key.Spell(midi % 12));
    }

    // The lowest place of a note on the fourth string and above.
    private static Pitch Low(Tune tune, Setting setting, PitchName name)
    {
        var lowest = setting.Tuning.OpenOf(4) - Move(setting);
        var midi = lowest + ((((name.PitchClass - lowest) % 12) + 12) % 12);
        return Pitch.FromMidi(midi, name);
    }

    private static int Move(Setting setting) => setting.Shift - setting.Capo;
}
