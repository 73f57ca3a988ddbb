using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Assembling;

/// <summary>Writes a path through the lattice out as a break.</summary>
public static class BreakAssembly
{
    public static Break Assemble(Tune tune, StepLattice lattice, Solution solution, Tempo tempo)
    {
        var bars = ImmutableArray.CreateBuilder<BreakBar>(tune.Bars.Length);
        var fifths = lattice.Setting.Position.Tonic.Fifths - tune.Key.Tonic.Fifths;
        for (var bar = 0; bar < tune.Bars.Length; bar++)
        {
            bars.Add(
                new()
                {
                    Length = tune.Bars[bar].Length,
                    Time = tune.Bars[bar].Time,
                    Marks = tune.Bars[bar].Marks,
                    Strokes = Strokes(lattice, solution, bar, tune.Bars[bar].Length),
                    Chords =
                    [
                        .. tune.Bars[bar].Chords.Select(at => new ChordAt(at.At, at.Chord.TransposeFifths(fifths))),
                    ],
                }
            );
        }
        return new()
        {
            Title = tune.Title,
            Composer = tune.Composer,
            Setting = lattice.Setting,
            Time = tune.Time,
            Tempo = tempo,
            Swing = tune.Swing,
            Bars = bars.ToImmutable(),
            Spans = SpanNames.Of(lattice, solution),
            Tune = tune,
        };
    }

    private static ImmutableArray<Stroke> Strokes(StepLattice lattice, Solution solution, int bar, Fraction barLength)
    {
        var strokes = new List<Stroke>();
        for (var step = lattice.Grid.FirstOf(bar); step < lattice.Grid.Bars[bar].End.Value; step++)
        {
            var place = lattice.Grid.Steps[step];
            var done = solution.Path[step];
            if (done.SlurString != 0)
                strokes.Add(
                    Make(lattice, place.At, done.SlurString, done.Shape, place.Onset) with
                    {
                        Slur = done.Slur,
                    }
                );
            foreach (var (finger, on) in done.Event.Plucks.OrderBy(pluck => pluck.String))
            {
                strokes.Add(Make(lattice, place.At, on, done.Shape, place.Onset) with { Right = finger });
                if (done.HalfShape is { } half)
                {
                    var at = place.At + (place.Length * new Fraction(1, 2));
                    strokes.Add(Make(lattice, at, on, half, null) with { Slur = done.HalfSlur });
                }
            }
        }
        return Timed(strokes, barLength);
    }

    private static Stroke Make(StepLattice lattice, Fraction at, int on, HandShape shape, int? wanted)
    {
        var fret = shape.FretOn(on);
        return new()
        {
            At = at,
            Length = Fraction.Zero,
            String = on,
            Fret = fret,
            Left = fret > 0 ? shape.FingerOn(on) : null,
            IsMelody = lattice.Setting.Tuning.KeyOf(on, fret) == wanted,
        };
    }

    // Every stroke lasts to the next one or to the end of the bar.
    private static ImmutableArray<Stroke> Timed(List<Stroke> strokes, Fraction barLength)
    {
        var timed = ImmutableArray.CreateBuilder<Stroke>(strokes.Count);
        for (var i = 0; i < strokes.Count; i++)
        {
            var end = barLength;
            for (var next = i + 1; next < strokes.Count; next++)
            {
                if (strokes[next].At > strokes[i].At)
                {
                    end = strokes[next].At;
                    break;
                }
            }
            timed.Add(strokes[i] with { Length = end - strokes[i].At });
        }
        return timed.ToImmutable();
    }
}
