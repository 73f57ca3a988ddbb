using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Sound.Instruments;

namespace Rollwright.Sound.Band;

/// <summary>Where an accompanist puts a chord on the strings. Chords are those that sound.</summary>
internal static class Voicing
{
    /// <summary>A full chord sounds on at least so many strings; lower ones are left out until one has its root.</summary>
    private const int FewestStrings = 4;

    /// <summary>Semitones above open by string from 1; null where the string is not struck.</summary>
    /// <param name="voice">The instrument, with the frets that a chord may use.</param>
    /// <param name="chord">As it is named.</param>
    /// <param name="capo">Semitones by which it sounds higher than named.</param>
    public static ImmutableArray<int?> Strum(InstrumentVoice voice, Chord chord, int capo)
    {
        var frets = new int?[voice.Strings.Length];
        // Four strings have no room for more than a triad.
        var tones = chord.PitchClasses;
        if (frets.Length <= FewestStrings && tones.Length > 3)
            tones = tones[..3];
        var hasRoot = false;
        for (var i = frets.Length - 1; i >= 0; i--)
        {
            var open = voice.Strings[i].Open ?? 0;
            for (var fret = voice.LowestFret; fret <= voice.HighestFret && frets[i] is null; fret++)
            {
                if (tones.Contains(Modulo(open + fret - capo)))
                    frets[i] = fret;
            }
            hasRoot |= frets[i] is { } found && (open + found - capo - chord.Root.PitchClass) % 12 == 0;
            if (!hasRoot && i >= FewestStrings)
                frets[i] = null;
        }
        return [.. frets];
    }

    /// <summary>The bass of a chord: its root (or named bass), or by turns the fifth below it, above where that is too low.</summary>
    /// <returns>String from 1, and semitones above open: on the lowest string that has it low on the neck.</returns>
    public static (int String, int Above) Bass(InstrumentVoice voice, Chord chord, int capo, bool isFifth)
    {
        var lowest = voice.Strings[^1].Open ?? 0;
        var root = (chord.Bass ?? chord.Root).PitchClass + capo;
        var key = lowest + Modulo(root - lowest);
        if (isFifth)
        {
            var tones = chord.PitchClasses;
            var fifth = (chord.Bass is null ? tones[Math.Min(2, tones.Length - 1)] : chord.Root.PitchClass) + capo;
            var below = key - Modulo(key - fifth);
            key = below >= lowest ? below : below + 12;
        }
        for (var i = 0; i < voice.Strings.Length; i++)
        {
            if (voice.Strings[i].Open is { } open && open <= key)
                return (i + 1, key - open);
        }
        return (voice.Strings.Length, key - lowest);
    }

    private static int Modulo(int semitones) => ((semitones % 12) + 12) % 12;
}
