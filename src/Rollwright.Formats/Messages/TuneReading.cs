using System.Collections.Immutable;
using Rollwright.Music.Keys;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Messages;

/// <summary>What was read from a file that holds the notes of one tune, without saying how they are played.</summary>
/// <param name="Tune">
/// Null where the file could not be read; then a message says why. Notes that sound together stand together in their bar:
/// the same <see cref="Note.At"/>, from the lowest to the highest, all until the next note begins.
/// </param>
/// <param name="Key">
/// As the file says; null where it is silent: then the tune's key is C major only so that its notes have names, and what it
/// is in is to be found from the notes.
/// </param>
/// <param name="Messages">In order of the file.</param>
public sealed record TuneReading(Tune? Tune, Key? Key, ImmutableArray<Message> Messages)
{
    public static TuneReading Refused(string file, int line, int column, string what, string remedy) =>
        new(null, null, [new(Severity.Error, file, line, column, what, remedy)]);
}
