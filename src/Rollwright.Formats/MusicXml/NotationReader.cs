using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml.Reading;

namespace Rollwright.Formats.MusicXml;

/// <summary>
/// Reads the notes of one part of a MusicXML score as a tune: plain notation, with or without tab. Pitches as they sound,
/// rests, ties, tuplets, chords in notes, chord symbols, repeats and endings, key, metre and tempo; one voice of the part, or
/// all together. Grace notes, cue notes and notes without pitch are kept aside.
/// </summary>
public static class NotationReader
{
    /// <param name="bytes">A score, or a compressed one.</param>
    /// <param name="fileName">For messages.</param>
    /// <param name="choice">Which part and voice; null for those that the reader takes for the melody.</param>
    public static TuneReading Read(byte[] bytes, string fileName, ScoreChoice? choice = null)
    {
        var log = new MessageLog(fileName);
        return Read(ScoreFile.Open(bytes, log), choice, log);
    }

    /// <inheritdoc cref="Read(byte[], string, ScoreChoice?)"/>
    public static TuneReading Read(string text, string fileName, ScoreChoice? choice = null)
    {
        var log = new MessageLog(fileName);
        return Read(ScoreFile.Open(text, log), choice, log);
    }

    private static TuneReading Read(ScoreFile? file, ScoreChoice? choice, MessageLog log) =>
        file is null
            ? new(null, null, log.Messages)
            : new NotationScoreReader(file, log).Read(choice ?? ScoreChoice.Any);
}
