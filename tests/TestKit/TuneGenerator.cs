using System.Collections.Immutable;
using CsCheck;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.TestKit;

/// <summary>Random tunes as fiddles have them: a key, a metre, two parts, steps and small leaps, chords of the key.</summary>
public static class TuneGenerator
{
    private static readonly TimeSignature[] Metres = [new(2, 2), new(4, 4), new(2, 4), new(6, 8), new(3, 4), new(9, 8)];
    private static readonly int[] Tonics = [0, 1, 2, 3, -1];

    public static Gen<Tune> Tunes(int bars) =>
        Gen.Select(Gen.Int[0, Metres.Length - 1], Gen.Int[0, Tonics.Length - 1], Gen.Int[0, 3], Gen.Bool, Gen.Int)
            .Select(
                (metre, tonic, mode, repeats, seed) =>
                    Make(Metres[metre], Tonics[tonic], (Mode)mode, repeats, bars, new Random(seed))
            );

    private static Tune Make(TimeSignature time, int fifths, Mode mode, bool repeats, int count, Random random)
    {
        var key = new Key(PitchName.FromFifths(fifths), mode);
        var bars = ImmutableArray.CreateBuilder<TuneBar>();
        var degree = random.Next(0, 8);
        for (var i = 0; i < count; i++)
        {
            var marks = repeats
                ? new BarMarks
                {
                    RepeatStart = i == 0 || i == count / 2,
                    RepeatEnd = i == (count / 2) - 1 || i == count - 1 ? 2 : 0,
                }
                : BarMarks.None;
            bars.Add(
                new()
                {
                    Length = time.Bar,
                    Time = time,
                    Key = key,
                    Marks = marks,
                    Notes = Notes(time, key, ref degree, random),
                    Chords =
                    [
                        new(Fraction.Zero, new Chord(key.Spell(key.Tonic.PitchClass + (random.Next(3) == 0 ? 7 : 0)))),
                    ],
                }
            );
        }
        return new()
        {
            Title = "Random tune",
            Key = key,
            Time = time,
            Bars = bars.ToImmutable(),
        };
    }

    private static ImmutableArray<Note> Notes(TimeSignature time, Key key, ref int degree, Random random)
    {
        var notes = ImmutableArray.CreateBuilder<Note>();
        for (var at = Fraction.Zero; at < time.Bar; )
        {
            var steps = random.Next(10) switch
            {
                < 5 => 1,
                < 9 => 2,
                _ => 3,
            };
            var length = Fraction.Min(time.Step * steps, time.Bar - at);
            degree = Math.Clamp(degree + random.Next(-2, 3), -3, 11);
            if (random.Next(12) != 0)
                notes.Add(new(at, length, PitchOf(key, degree)));
            at += length;
        }
        return notes.ToImmutable();
    }

    private static Pitch PitchOf(Key key, int degree)
    {
        var octave = (int)Math.Floor(degree / 7.0);
        // The scale of the mode: the major scale of its signature, begun on the tonic.
        var scale = Enumerable.Range(0, 12).Where(pc => key.Contains(key.Tonic.PitchClass + pc)).ToArray();
        var pitchClass = key.Tonic.PitchClass + scale[((degree % 7) + 7) % 7];
        return Pitch.FromMidi(60 + pitchClass + (12 * octave), key.Spell(pitchClass));
    }
}
