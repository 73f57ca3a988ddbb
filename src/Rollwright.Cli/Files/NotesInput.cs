using Rollwright.Cli.Commands;
using Rollwright.Formats.Messages;
using Rollwright.Formats.Midi;
using Rollwright.Formats.MusicXml;
using Rollwright.Music.Tunes;

namespace Rollwright.Cli.Files;

/// <summary>Reads notes that are given, from ABC, MIDI or MusicXML, told apart by what the file begins with.</summary>
internal static class NotesInput
{
    /// <param name="path">The file; - is standard input.</param>
    /// <param name="choice">Which notes of a MIDI file.</param>
    /// <param name="score">Which part and voice of a MusicXML score.</param>
    /// <exception cref="RequestException">It cannot be read; the message is the reader's first.</exception>
    public static Tune Read(string path, MidiChoice choice, ScoreChoice score)
    {
        var bytes = InputFile.Read(path);
        var name = InputFile.NameOf(path);
        if (bytes.AsSpan().StartsWith("MThd"u8))
            return Tune(MidiReader.Read(bytes, name, choice), name);
        return MusicXmlReader.IsScore(bytes)
            ? Tune(NotationReader.Read(bytes, name, score), name)
            : TuneInput.OneOf(bytes, path, "give a file with one tune");
    }

    private static Tune Tune(TuneReading reading, string name)
    {
        foreach (var message in reading.Messages.Where(message => reading.Tune is not null))
            Exit.Say(message.ToString());
        return reading.Tune
            ?? throw new RequestException(
                reading.Messages.FirstOrDefault()?.ToString()
                    ?? $"{name}:1:1: this holds no notes; give ABC, MIDI or MusicXML"
            );
    }
}
