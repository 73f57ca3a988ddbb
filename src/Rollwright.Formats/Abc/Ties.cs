using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc;

/// <summary>Ties between notes that follow one another, over bar lines and into every ending of a repeat.</summary>
internal sealed class Ties
{
    private Pitch? lastPitch;
    private Pitch? intoEndings;

    /// <summary>The pitch that is held; null where no tie is open.</summary>
    public Pitch? Pitch { get; private set; }

    public bool Joins(Pitch pitch) => Pitch?.Midi == pitch.Midi;

    /// <summary>After a note, or a rest where <paramref name="pitch"/> is null.</summary>
    public void After(Pitch? pitch, bool isTied)
    {
        lastPitch = pitch;
        Pitch = isTied ? pitch : null;
    }

    public void Open() => Pitch ??= lastPitch;

    /// <summary>
    /// What is held when the first ending comes is held when the others come: they are all reached from the same bar.
    /// </summary>
    public void StartEnding(bool isFurther)
    {
        if (isFurther)
            Pitch ??= intoEndings;
        else
            intoEndings = Pitch;
    }
}
