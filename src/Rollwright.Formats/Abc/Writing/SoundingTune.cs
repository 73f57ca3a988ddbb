using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc.Writing;

/// <summary>
/// The notes and chords of a break as they sound, capo included, as a tune: notes that sound together stand together; each
/// ends at the latest where the next begins.
/// </summary>
internal static class SoundingTune
{
    public static Tune Of(Break played)
    {
        var key = played.Setting.SoundingKey;
        var fifths = key.Tonic.Fifths - played.Setting.Position.Tonic.Fifths;
        return new()
        {
            Title = played.Title,
            Composer = played.Composer,
            // The only word that ABC has for swing (abc2midi plays it two to one).
            Rhythm = played.Swing is null ? "" : "hornpipe",
            Key = key,
            Time = played.Time,
            Tempo = played.Tempo,
            Bars =
            [
                .. played.Bars.Select(bar => new TuneBar
                {
                    Length = bar.Length,
                    Time = bar.Time,
                    Key = key,
                    Marks = bar.Marks,
                    Notes = Notes(played, bar),
                    Chords = [.. bar.Chords.Select(at => at with { Chord = at.Chord.TransposeFifths(fifths) })],
                }),
            ],
        };
    }

    private static ImmutableArray<Note> Notes(Break played, BreakBar bar)
    {
        var key = played.Setting.SoundingKey;
        var times = bar.Strokes.Select(stroke => stroke.At).Distinct().Order().Append(bar.Length).ToList();
        var notes = ImmutableArray.CreateBuilder<Note>(bar.Strokes.Length);
        for (var i = 0; i + 1 < times.Count; i++)
        {
            var together = bar.Strokes.Where(stroke => stroke.At == times[i]).ToList();
            var length = Fraction.Min(together.Max(stroke => stroke.Length), times[i + 1] - times[i]);
            foreach (var midi in together.Select(played.KeyOf).Distinct().Order())
                notes.Add(new(times[i], length, Pitch.FromMidi(midi, key.Spell(midi))));
        }
        return notes.ToImmutable();
    }
}
