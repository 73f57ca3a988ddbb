namespace Rollwright.Music.Pitches;

/// <summary>A spelled pitch.</summary>
/// <param name="Name">Letter and alteration.</param>
/// <param name="Octave">Scientific octave: C4 is middle C, MIDI 60. B♯3 is MIDI 60 too.</param>
public readonly record struct Pitch(PitchName Name, int Octave)
{
    /// <summary>MIDI key number; 60 is C4. May leave 0…127 for pitches that nobody plays.</summary>
    public int Midi => (12 * (Octave + 1)) + PitchName.NaturalOf(Name.Letter) + Name.Alter;

    /// <summary>Steps of the staff above C0, a measure of the place on the lines: C4 is 28.</summary>
    public int StaffStep => (7 * Octave) + (int)Name.Letter;

    /// <summary>The pitch of a MIDI key with the spelling given by its pitch name.</summary>
    public static Pitch FromMidi(int midi, PitchName name)
    {
        var octave = (int)Math.Floor((midi - PitchName.NaturalOf(name.Letter) - name.Alter) / 12.0) - 1;
        return new(name, octave);
    }

    public override string ToString() => $"{Name}{Octave}";
}
