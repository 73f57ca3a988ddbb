using System.Security.Cryptography;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Words.Edits;

/// <summary>
/// Tells whether a phrase still has the notes that were spoken about: times, strings, frets, both hands' fingers and slurs of
/// its bars. Where it stands in the break, what is the tune's, chords and names of rolls do not matter.
/// </summary>
public static class NotesFingerprint
{
    // 64 bits are far more than the phrases of a lesson need to be told apart.
    private const int Digits = 16;

    public static string Of(Break played, Phrase phrase)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(phrase);
        var notes = new StringBuilder();
        foreach (var bar in phrase.Bars)
        {
            notes.Append('|').Append(played.Bars[bar].Length);
            foreach (var stroke in played.Bars[bar].Strokes)
                notes.Append(
                    $" {stroke.At}:{stroke.String}.{stroke.Fret}{stroke.Right}{(int?)stroke.Slur}.{stroke.Left}"
                );
        }
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(notes.ToString())))[..Digits];
    }
}
