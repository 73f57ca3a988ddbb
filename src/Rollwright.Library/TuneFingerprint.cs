using System.Security.Cryptography;
using System.Text;
using Rollwright.Music.Tunes;

namespace Rollwright.Library;

/// <summary>
/// The same for the same melody in any key and octave: intervals and lengths of its notes, repeated and tied notes joined by
/// their pitch, so that neither ties nor the letter L of ABC tell two copies apart.
/// </summary>
public static class TuneFingerprint
{
    // Enough to tell tunes apart (assumption): two reels share an opening bar, hardly eight bars.
    private const int MostNotes = 64;

    public static string Of(Tune tune)
    {
        ArgumentNullException.ThrowIfNull(tune);
        var text = new StringBuilder();
        int? before = null;
        foreach (var note in tune.Bars.SelectMany(bar => bar.Notes).Where(note => !note.TiedFromBefore).Take(MostNotes))
        {
            text.Append(before is { } last ? note.Pitch.Midi - last : 0).Append(':').Append(note.Length).Append(' ');
            before = note.Pitch.Midi;
        }
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..16];
    }
}
