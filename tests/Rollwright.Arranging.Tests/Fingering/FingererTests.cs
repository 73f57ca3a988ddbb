using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Fingering;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Fingering;

public class FingererTests
{
    /// <summary>From this share of short gaps on the hands are taken to go at the speed of those.</summary>
    private const double ManyShortGaps = 0.25;

    private static readonly Gen<(Tune Tune, ArrangeOptions Options, int Octaves)> Asked = Gen.Select(
        TuneGenerator.Tunes(4),
        Gen.Int,
        Gen.Int[1, 5],
        Gen.Int[0, TuningTable.All.Length - 1],
        Gen.Int[0, 5],
        Gen.Int[-1, 0],
        (tune, seed, level, tuning, capo, octaves) =>
            (
                Divided(tune, new Random(seed)),
                new ArrangeOptions
                {
                    Level = level,
                    Tuning = TuningTable.All[tuning],
                    Capo = capo,
                },
                octaves
            )
    );

    [Fact]
    public void No_note_is_added_and_none_is_lost_in_silence() =>
        Asked.Sample(
            (tune, options, octaves) =>
            {
                if (Finger(tune, options, octaves) is not { } fingered)
                    return;
                var given = tune
                    .Bars.SelectMany(
                        (bar, i) =>
                            bar
                                .Notes.Where(note => !note.TiedFromBefore)
                                .Select(note => (i, note.At, note.Pitch.Midi + (12 * octaves)))
                    )
                    .Order();
                var played = fingered.Break.Bars.SelectMany(
                    (bar, i) => bar.Strokes.Select(stroke => (i, stroke.At, fingered.Break.KeyOf(stroke)))
                );
                var left = fingered.Left.Select(note => (note.Bar, note.At, note.Pitch.Midi + (12 * octaves)));
                played.Concat(left).Order().Should().Equal(given);
                fingered.Left.Should().OnlyContain(note => note.Why.Length > 10);
            },
            iter: 60
        );

    // Where a good part of the notes goes by half steps of the metre, hands go at that speed: their step is half of it then.
    [Fact]
    public void What_is_fingered_can_be_played_at_the_speed_of_the_hands() =>
        Asked
            .Where((tune, _, _) => tune.Time != new TimeSignature(2, 4))
            .Sample(
                (tune, options, octaves) =>
                {
                    if (Finger(tune, options, octaves) is not { } fingered)
                        return;
                    var isFine = ShareOfShortGaps(tune) > ManyShortGaps;
                    Checker.Check(isFine ? InSixteenths(fingered.Break) : fingered.Break).Should().BeEmpty();
                },
                iter: 80
            );

    private static double ShareOfShortGaps(Tune tune)
    {
        var gaps = tune
            .Bars.SelectMany(bar =>
            {
                var times = bar.Notes.Select(note => note.At).Distinct().ToArray();
                return times.Zip(times.Skip(1), (a, b) => (b - a) < bar.Time.Step);
            })
            .ToArray();
        return gaps.Length == 0 ? 0 : gaps.Count(isShort => isShort) / (double)gaps.Length;
    }

    // The same bars counted in sixteenths.
    private static Break InSixteenths(Break made)
    {
        var time = new TimeSignature((int)(made.Time.Bar / new Fraction(1, 16)).Floor(), 16);
        return made with { Time = time, Bars = [.. made.Bars.Select(bar => bar with { Time = time })] };
    }

    private static Fingered? Finger(Tune tune, ArrangeOptions options, int octaves)
    {
        try
        {
            return Fingerer.Finger(tune, options, octaves);
        }
        catch (ArrangeException e)
        {
            e.Message.Should().Contain("another octave");
            return null;
        }
    }

    // Some notes get company below them, some are halved or made triplets.
    private static Tune Divided(Tune tune, Random random) =>
        tune with
        {
            Bars = [.. tune.Bars.Select(bar => bar with { Notes = Divided(bar.Notes, random) })],
        };

    private static ImmutableArray<Note> Divided(ImmutableArray<Note> notes, Random random)
    {
        var divided = ImmutableArray.CreateBuilder<Note>();
        foreach (var note in notes)
        {
            var parts = random.Next(6) switch
            {
                0 => 2,
                1 => 3,
                _ => 1,
            };
            for (var i = 0; i < parts; i++)
            {
                var length = note.Length * new Fraction(1, parts);
                var part = note with { At = note.At + (length * i), Length = length };
                if (random.Next(8) == 0)
                    divided.Add(part with { Pitch = Pitch.FromMidi(note.Pitch.Midi - 12, note.Pitch.Name) });
                divided.Add(part);
            }
        }
        return divided.ToImmutable();
    }
}
