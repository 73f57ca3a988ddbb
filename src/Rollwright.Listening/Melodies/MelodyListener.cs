using Rollwright.Audio.Reading;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Melodies;

/// <summary>Hears one unaccompanied line (fiddle, whistle, voice) and writes it out as a tune.</summary>
public static class MelodyListener
{
    /// <summary>The longest melody that is listened to; what comes after it is not read.</summary>
    public const double MostMinutes = 30;

    /// <summary>The same sound gives the same tune.</summary>
    /// <param name="sound">One channel; the pitches of a melody lie below 3.2 kHz.</param>
    /// <param name="tempo">Beats a minute of the metre, where it is known; quarters where no metre is given.</param>
    /// <param name="time">The metre, where it is known.</param>
    public static HeardMelody Listen(ISoundSource sound, double? tempo = null, TimeSignature? time = null)
    {
        ArgumentNullException.ThrowIfNull(sound);
        var frames = PitchTrack.Of(sound, (int)(MostMinutes * 60 / PitchTrack.Hop));
        var (offset, _) = ConcertPitch.Of(frames);
        var notes = MelodyNotes.Of(frames, offset);
        if (!MelodyJudge.IsMelody(frames, notes, offset))
            return new([], 0, null);
        var beat = (time?.Beat ?? new Fraction(1, 4)) / new Fraction(1, 8);
        var grid = RhythmGrid.Of(notes, tempo is { } given ? 60 / given / beat.ToDouble() : null);
        var (found, first) = MetreFinder.Of(grid, [.. notes.Select(note => note.Pitch)], time);
        return new([.. notes], 100 * offset, MelodyTune.Of(notes, grid, found, first));
    }
}
