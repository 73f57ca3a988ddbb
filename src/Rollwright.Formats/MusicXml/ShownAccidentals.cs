using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml;

/// <summary>Which notes of a bar need an accidental in front: those that differ from the key or from what stands before.</summary>
internal sealed class ShownAccidentals(Key key)
{
    private readonly Dictionary<(Letter, int), int> standing = [];

    /// <summary>The name of MusicXML; null where none is needed.</summary>
    public string? Of(Pitch pitch)
    {
        var place = (pitch.Name.Letter, pitch.Octave);
        var before = standing.TryGetValue(place, out var alter) ? alter : key.AlterOf(pitch.Name.Letter);
        standing[place] = pitch.Name.Alter;
        if (before == pitch.Name.Alter)
            return null;
        return pitch.Name.Alter switch
        {
            -2 => "flat-flat",
            -1 => "flat",
            0 => "natural",
            1 => "sharp",
            _ => "double-sharp",
        };
    }
}
