namespace Rollwright.Music.Keys;

/// <summary>The modes of ABC 2.1; fiddle tunes use major, mixolydian, dorian and minor.</summary>
public enum Mode
{
    Major,
    Mixolydian,
    Dorian,
    Minor,
    Phrygian,
    Locrian,
    Lydian,
}
