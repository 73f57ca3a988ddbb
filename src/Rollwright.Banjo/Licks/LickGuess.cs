using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Pitches;

namespace Rollwright.Banjo.Licks;

/// <summary>
/// What a lick seems to be, from its tab alone: for a player who types one, to be confirmed. The weights are our own
/// judgement (assumptions); the tests say how often they agree with the licks of the bank.
/// </summary>
/// <param name="Chords">Those it fits, best first; those it does not fit follow.</param>
/// <param name="Role">Fill, run, pickup, turnaround or tag.</param>
/// <param name="Level">1 to 5.</param>
/// <param name="IsInThrees">Whether its beats divide in three.</param>
public sealed record LickGuess(ImmutableArray<Chord> Chords, LickRole Role, int Level, bool IsInThrees)
{
    private static readonly PitchName[] Roots =
    [
        new(Letter.G),
        new(Letter.D),
        new(Letter.C),
        new(Letter.A),
        new(Letter.E),
        new(Letter.F),
        new(Letter.B),
        new(Letter.B, -1),
        new(Letter.E, -1),
        new(Letter.F, 1),
        new(Letter.A, -1),
        new(Letter.C, 1),
    ];
    private static readonly ChordQuality[] Qualities =
    [
        ChordQuality.Major,
        ChordQuality.Minor,
        ChordQuality.DominantSeventh,
    ];

    /// <param name="tuning">The tuning it is typed in.</param>
    /// <param name="steps">Its steps.</param>
    /// <param name="next">The chord behind it, where the player names one.</param>
    /// <param name="role">The role, where the player names one.</param>
    /// <param name="isInThrees">Whether its beats divide in three, where the player says so.</param>
    public static LickGuess Of(
        Tuning tuning,
        ImmutableArray<LickStep> steps,
        Chord? next = null,
        LickRole? role = null,
        bool? isInThrees = null
    )
    {
        // Six steps may be a bar of 6/8 or of 3/4: jigs are the more common.
        var threes = isInThrees ?? (steps.Length % 3 == 0 && steps.Length > 3);
        var plain = new Lick("", role ?? LickRole.Fill, tuning, new(Roots[0]), 1, threes, steps) { Next = next };
        var named = plain with { Role = role ?? RoleOf(plain) };
        return new(ChordsOf(named), named.Role, LevelOf(named), threes);
    }

    private static ImmutableArray<Chord> ChordsOf(Lick lick) =>
        [
            .. from root in Roots
            from quality in Qualities
            let chord = new Chord(root, quality)
            let misfits = ChordFit.Misfits(lick with { Chord = chord }).Length
            orderby misfits, Weight(lick, chord) descending
            select chord,
        ];

    // Tones count by where they stand; a chord whose third or seventh never sounds is guessed at.
    private static double Weight(Lick lick, Chord chord)
    {
        var tones = chord.PitchClasses;
        var sum = 0.0;
        var heard = new HashSet<int>();
        var lowest = lick.Notes.Min(sound => lick.Tuning.KeyOf(sound.String, sound.Fret));
        foreach (var sound in lick.Notes)
        {
            var key = lick.Tuning.KeyOf(sound.String, sound.Fret);
            var isDrone = ChordFit.IsDrone(sound);
            var isOnBeat = sound.At % 2 == 0 && ChordFit.IsOnBeat(lick, sound.At / 2);
            // What a slur leaves at once is heard, but half as much.
            var place =
                (
                    isDrone ? 0.3
                    : isOnBeat ? 2
                    : 1
                ) * (sound.IsLeft ? 0.5 : 1);
            sum += chord.Contains(key) ? place : -place;
            if (key % 12 == tones[0])
                sum += (isDrone ? 0 : 0.6) + (key == lowest ? 0.6 : 0);
            if (!isDrone)
                heard.Add(key % 12);
        }
        sum -= heard.Contains(tones[0]) ? 0 : 1.5;
        sum -=
            heard.Contains(tones[1]) ? 0
            : chord.Quality == ChordQuality.Major ? 1
            : 2;
        sum -=
            tones.Length < 4 ? 0
            : heard.Contains(tones[3]) ? 0.5
            : 6;
        return sum;
    }

    private static LickRole RoleOf(Lick lick)
    {
        if (lick.Next is not null)
            return lick.Length < 4 ? LickRole.Pickup
                : IsLine(lick) ? LickRole.Run
                : LickRole.Turnaround;
        var last = lick.Steps[lick.SoundingLength - 1];
        if (lick.SoundingLength < lick.Length && (last.Plucks.Length > 1 || lick.Length - lick.SoundingLength > 1))
            return LickRole.Tag;
        if (lick.Length < 4 && !(lick.IsInThrees || (lick.Length == 3 && last.Plucks is [{ Right: RightFinger.M }])))
            return LickRole.Pickup;
        return IsLine(lick) ? LickRole.Run : LickRole.Fill;
    }

    // Most notes go on by a semitone or two from the one before.
    private static bool IsLine(Lick lick)
    {
        var keys = lick
            .Notes.Where(sound => !ChordFit.IsDrone(sound))
            .Select(sound => lick.Tuning.KeyOf(sound.String, sound.Fret))
            .ToArray();
        var steps = keys.Zip(keys.Skip(1)).Count(pair => Math.Abs(pair.Second - pair.First) is 1 or 2);
        return keys.Length >= 4 && steps * 5 >= (keys.Length - 1) * 3;
    }

    private static int LevelOf(Lick lick)
    {
        if (lick.Register == Register.Up)
            return lick.HighestFret > 12 || lick.Slurs > 0 ? 5 : 4;
        if (lick.Register == Register.Middle)
            return 4;
        if (lick.Slurs > 1 || lick.LeftFingers > 3 || lick.HighestFret > 4)
            return 3;
        return lick.Slurs > 0 || lick.LeftFingers > 2 || lick.HighestFret > 3 ? 2 : 1;
    }
}
