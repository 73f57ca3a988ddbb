using Rollwright.Music.Tunes;

namespace Rollwright.Recognition;

/// <summary>A note that starts: when and which pitch class. Octaves, lengths and loudness are not looked at.</summary>
/// <param name="Step">Steps of the metre from the start: eighths in 4/4 and 6/8, sixteenths in 2/4.</param>
/// <param name="PitchClass">0 to 11, 0 is C.</param>
internal readonly record struct Onset(int Step, int PitchClass)
{
    /// <summary>The onsets of a tune as it is played, repeats taken; finer notes fall to the step that they stand in.</summary>
    public static Onset[] Of(Tune tune) =>
        [
            .. tune.Played()
                .Select(note => new Onset((int)(note.At / tune.Time.Step).Floor(), note.Pitch.Midi % 12))
                .Distinct(),
        ];
}
