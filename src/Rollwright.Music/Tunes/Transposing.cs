using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Music.Tunes;

/// <summary>A tune in another key.</summary>
public static class Transposing
{
    /// <summary>The tune with another tonic, its notes as near as they go (a tritone goes up), its chords with it.</summary>
    /// <param name="tune">The tune.</param>
    /// <param name="tonic">The tonic that shall sound.</param>
    public static Tune To(this Tune tune, PitchName tonic)
    {
        var semitones = (((tonic.PitchClass - tune.Key.Tonic.PitchClass) % 12) + 12) % 12;
        if (semitones > 6)
            semitones -= 12;
        // Spelled intervals add up on the line of fifths.
        var fifths = tonic.Fifths - tune.Key.Tonic.Fifths;
        return fifths == 0
            ? tune
            : tune with
            {
                Key = Moved(tune.Key),
                Bars =
                [
                    .. tune.Bars.Select(bar =>
                        bar with
                        {
                            Key = Moved(bar.Key),
                            Notes = [.. bar.Notes.Select(note => note with { Pitch = MovedPitch(note.Pitch) })],
                            Chords =
                            [
                                .. bar.Chords.Select(chord =>
                                    chord with
                                    {
                                        Chord = chord.Chord.TransposeFifths(fifths),
                                    }
                                ),
                            ],
                        }
                    ),
                ],
            };

        Key Moved(Key key) => key with { Tonic = PitchName.FromFifths(key.Tonic.Fifths + fifths) };

        Pitch MovedPitch(Pitch pitch) =>
            Pitch.FromMidi(pitch.Midi + semitones, PitchName.FromFifths(pitch.Name.Fifths + fifths));
    }
}
