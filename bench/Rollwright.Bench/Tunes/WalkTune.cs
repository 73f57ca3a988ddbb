using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Bench.Tunes;

/// <summary>
/// A melody in G that walks at random by steps and small leaps, with no repeat and no two equal bars. The seed is
/// fixed, so a longer tune begins with the shorter one, and every run measures the same notes.
/// </summary>
internal static class WalkTune
{
    private const int Seed = 20;
    private const int LowestDegree = -3; // d below the tonic, the lowest string but one of a fiddle
    private const int HighestDegree = 8; // a above the upper tonic
    private const int TonicOctave = 4;

    private static readonly Key G = new(new(Letter.G));
    private static readonly TimeSignature Metre = TimeSignature.Cut;
    private static readonly Letter[] ChordRoots = [Letter.G, Letter.G, Letter.C, Letter.D];

    public static Tune OfBars(int count)
    {
        // The same tune on every run is the point; nothing here is a secret.
#pragma warning disable CA5394
        var random = new Random(Seed);
        var bars = ImmutableArray.CreateBuilder<TuneBar>(count);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var degree = 0;
        while (bars.Count < count)
        {
            var notes = Walk(random, ref degree);
            if (!seen.Add(string.Join(' ', notes)))
                continue;
            var root = ChordRoots[random.Next(ChordRoots.Length)];
            bars.Add(
                new()
                {
                    Length = Metre.Bar,
                    Time = Metre,
                    Key = G,
                    Notes = notes,
                    Chords = [new(Fraction.Zero, new Chord(new(root)))],
                }
            );
        }
#pragma warning restore CA5394
        return new()
        {
            Title = $"Walk of {count} bars",
            Key = G,
            Time = Metre,
            Bars = bars.MoveToImmutable(),
        };
    }

    // Half of the notes are one step long, most others two, a few three: about as reels have them.
    private static ImmutableArray<Note> Walk(Random random, ref int degree)
    {
        var notes = ImmutableArray.CreateBuilder<Note>();
        for (var at = Fraction.Zero; at < Metre.Bar; )
        {
#pragma warning disable CA5394
            var steps = random.Next(10) switch
            {
                < 5 => 1,
                < 9 => 2,
                _ => 3,
            };
            degree = Math.Clamp(degree + random.Next(-2, 3), LowestDegree, HighestDegree);
#pragma warning restore CA5394
            var length = Fraction.Min(Metre.Step * steps, Metre.Bar - at);
            notes.Add(new(at, length, PitchOf(degree)));
            at += length;
        }
        return notes.ToImmutable();
    }

    // Letters go up from the tonic; the key signature gives the sharp.
    private static Pitch PitchOf(int degree)
    {
        var step = (7 * TonicOctave) + (int)G.Tonic.Letter + degree;
        var letter = (Letter)(step % 7);
        return new(new(letter, G.AlterOf(letter)), step / 7);
    }
}
