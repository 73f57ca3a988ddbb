using System.Collections.Immutable;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>Whether the notes of a lick belong over its chord (common practice, no source).</summary>
/// <remarks>
/// On the felt beat (every fourth step, every third in threes) stand tones of the chord. Between, the second and sixth
/// of a major chord or the fourth and seventh of a minor one may stand freely; any other note moves on by a semitone or
/// two within two steps, or, in the last two steps, into a tone of the next chord. A note that a slur leaves at once is
/// free, and the open short string is a drone over everything. In a run a passing note may fall on the beat if it moves
/// on at once. A fill is heard as going round.
/// </remarks>
public static class ChordFit
{
    private const int StepsInABeat = 4;
    private const int StepsInABeatOfThrees = 3;

    /// <summary>The notes that do not belong, in order of time; empty where all do.</summary>
    public static ImmutableArray<LickSound> Misfits(Lick lick)
    {
        var sounds = lick.Notes.Where(sound => !IsDrone(sound)).ToImmutableArray();
        var heard = sounds.ToList();
        if (lick.Role == LickRole.Fill)
            heard.AddRange(sounds.Select(sound => sound with { At = sound.At + (2 * lick.Length) }));
        return [.. sounds.Where(sound => !Belongs(lick, sound, heard))];
    }

    /// <summary>Whether a step is a felt beat. Licks that lead to a bar line are counted back from it.</summary>
    public static bool IsOnBeat(Lick lick, int step)
    {
        var beat = lick.IsInThrees ? StepsInABeatOfThrees : StepsInABeat;
        var isCountedBack = lick.Role is LickRole.Pickup or LickRole.Turnaround;
        return (isCountedBack ? lick.Length - step : step) % beat == 0;
    }

    internal static bool IsDrone(LickSound sound) => sound is { String: Neck.ShortString, Fret: 0 };

    private static bool Belongs(Lick lick, LickSound sound, IReadOnlyList<LickSound> heard)
    {
        var key = lick.Tuning.KeyOf(sound.String, sound.Fret);
        if (sound.IsLeft || lick.Chord.Contains(key))
            return true;
        var isOnBeat = sound.At % 2 == 0 && IsOnBeat(lick, sound.At / 2);
        if (isOnBeat && lick.Role != LickRole.Run)
            return false;
        if (!isOnBeat && IsColour(lick.Chord, key))
            return true;
        var patience = isOnBeat ? 2 : 4;
        return MovesOn(lick, key, heard.Where(other => other.At > sound.At && other.At <= sound.At + patience))
            || (sound.At / 2 >= lick.Length - 2 && LeadsInto(lick.Next, key));
    }

    private static bool MovesOn(Lick lick, int key, IEnumerable<LickSound> later) =>
        later.Any(other => Math.Abs(lick.Tuning.KeyOf(other.String, other.Fret) - key) is 1 or 2);

    private static bool LeadsInto(Chord? next, int key) =>
        next is { } chord && Enumerable.Range(key - 2, 5).Any(near => chord.Contains(near));

    // The notes that make a triad pentatonic.
    private static bool IsColour(Chord chord, int key)
    {
        var above = (((key - chord.Root.PitchClass) % 12) + 12) % 12;
        return chord.Quality is ChordQuality.Minor or ChordQuality.MinorSeventh ? above is 5 or 10 : above is 2 or 9;
    }
}
