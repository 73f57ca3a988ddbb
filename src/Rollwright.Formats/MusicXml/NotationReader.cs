using System.Xml;
using System.Xml.Linq;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.MusicXml;

/// <summary>
/// Reads the notes of one part of a MusicXML score (partwise) as a tune: plain notation, with or without tab. Pitches as
/// they sound, rests, ties, tuplets, chords in notes, chord symbols, repeats and endings, key, metre and tempo. Voices of
/// the part are put together; grace notes, cue notes and notes without pitch are kept aside.
/// </summary>
public static class NotationReader
{
    /// <param name="text">The score.</param>
    /// <param name="fileName">For messages.</param>
    /// <param name="part">Id or name of the part; null for the first that has a note with a pitch.</param>
    public static TuneReading Read(string text, string fileName, string? part = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > MusicXmlReader.MostCharacters)
            return TuneReading.Refused(
                fileName,
                1,
                1,
                $"the file is larger than {MusicXmlReader.MostCharacters / 1_000_000} MB",
                "give a single piece"
            );
        try
        {
            var log = new MessageLog(fileName);
            return new NotationScoreReader(MusicXmlReader.Parse(text), log).Read(part);
        }
        catch (XmlException wrong)
        {
            return TuneReading.Refused(
                fileName,
                Math.Max(1, wrong.LineNumber),
                Math.Max(1, wrong.LinePosition),
                "this is no XML, or broken XML",
                "write the file anew from the program it comes from"
            );
        }
    }
}
