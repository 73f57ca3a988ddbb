namespace Rollwright.Music.Chords;

/// <summary>The kinds of chord that fiddle tunes are accompanied with.</summary>
public enum ChordQuality
{
    Major,
    Minor,
    DominantSeventh,
    MinorSeventh,
    MajorSeventh,
    Diminished,
    DiminishedSeventh,
    HalfDiminished,
    Augmented,
    Sixth,
    MinorSixth,
    Ninth,
    SuspendedFourth,
    SuspendedSecond,
    Fifth,
}
