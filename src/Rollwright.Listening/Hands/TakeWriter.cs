using System.Collections.Immutable;
using Rollwright.Arranging.Assembling;
using Rollwright.Arranging.Chording;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Hands.Strings;
using Rollwright.Listening.Rhythm;
using Rollwright.Listening.Takes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Listening.Hands;

/// <summary>
/// From moments to a break: steps are counted, then tuning, capo and bar lines are chosen for which the hands' work is the
/// most usual.
/// </summary>
internal static class TakeWriter
{
    // So many moments tell tuning and bar lines; the rest would only cost time.
    private const int Enough = 256;

    // What is solved at once grows with its length in memory; five minutes of a tune are one piece.
    private const int BarsAtOnce = 160;

    /// <param name="moments">By time; at least one.</param>
    public static Heard Write(
        IReadOnlyList<Moment> moments,
        double cents,
        ListenOptions options,
        CancellationToken stop
    )
    {
        // Until the metre is found, where it is: steps, tuning and capo hardly hang on it.
        var time = options.Time ?? TimeSignature.Common;
        // A beat of so many steps: an eighth is a step of 4/4, and of 6/8.
        var step = options.PerMinute is { } perMinute
            ? 60 / perMinute / (time.Beat / time.Step).ToDouble()
            : (double?)null;
        var steps =
            moments.Count > 1
                ? StepTracker.Track(
                    [.. moments.Select(moment => moment.Onset)],
                    [.. moments.Select(moment => moment.Attack < 0.5)],
                    step
                )
                : new([0], step ?? 0.25, 0);
        // What is no step is an echo of the one before, or a noise.
        moments = [.. moments.Where((_, i) => steps.At[i] != StepTracker.NoStep)];
        steps = steps with { At = [.. steps.At.Where(at => at != StepTracker.NoStep)] };
        stop.ThrowIfCancellationRequested();
        var key = KeyFinder.Of([.. moments.SelectMany((moment, i) => Played(moment, steps.At[i]))]);
        var known = moments.Take(Enough).ToList();
        var first = Lay(known, 0);
        // The tuning of most three-finger playing (common practice, no source); another must explain itself.
        var other = ListeningTable.Of("other-tuning") * known.Count;
        var setting = SettingFinder
            .Likely(moments, key, options.Tuning, options.Capo)
            .Select(setting => (Setting: setting, Solver: HandFinder.Solve(first, setting, steps.Step)))
            .Where(tried => tried.Solver.Best.IsPossible)
            .OrderBy(tried =>
                tried.Solver.Best.Total
                + (tried.Setting.Tuning == TuningTable.OpenG ? 0 : other)
                + (tried.Setting.Capo * ListeningTable.Of("capo"))
                + (known.Count * SettingFinder.Droneless(known, tried.Setting) * ListeningTable.Of("no-drone"))
            )
            .Select(tried => tried.Setting)
            .FirstOrDefault();
        if (setting is null)
            return new([.. Bare(moments)], cents);
        moments = StringWitness.Ask(moments, steps.At, setting, options.Banjo);
        // Where bars begin, rolls tell: a pinch that may be another instrument's chord would hide them.
        known = [.. moments.Take(Enough).Select(moment => moment.Plainer())];
        time = options.Time ?? TakeMetre.Of(Begun(moments, steps.At), setting.SoundingKeyOf(Neck.ShortString, 0));
        // Whoever begins on the beat, begins with a bar, unless the hands say otherwise.
        var before = Enumerable
            .Range(0, Layout.HalvesOf(time) / 2)
            .Select(gone => 2 * gone)
            .MinBy(gone => HandFinder.BarPrice(Lay(known, gone), setting) + PickupPrice(gone, time));
        stop.ThrowIfCancellationRequested();
        var layout = Lay(moments, before);
        var heard = Assemble(layout, setting, steps, before, cents, stop);
        return heard?.Notes.Any(note => note.String is not null) == true ? heard : new([.. Bare(moments)], cents);

        Layout Lay(IReadOnlyList<Moment> some, int gone) => Layout.Of(some, steps.At, gone, time, key, options.Title);
    }

    private static List<TakeEvidence.Begun> Begun(IEnumerable<Moment> moments, int[] at) =>
        [.. moments.Select((moment, i) => new TakeEvidence.Begun(at[i], moment.Keys, moment.Attack < 0.5))];

    // A pickup is seldom longer than half a bar (common practice, no source).
    private static double PickupPrice(int gone, TimeSignature time) =>
        gone == 0 ? 0 : ListeningTable.Of(2 * gone < Layout.HalvesOf(time) ? "pickup-long" : "pickup");

    // Null where no hands could do something like it.
    private static Heard? Assemble(
        Layout layout,
        Setting setting,
        StepTracker.Tracked steps,
        int before,
        double cents,
        CancellationToken stop
    )
    {
        var late = steps.At.Select(at => at + StepTracker.Late(at, steps.Swing)).ToArray();
        var time = layout.Tune.Time;
        var line = new TimeLine(late, [.. layout.Moments.Select(laid => laid.Moment.Onset)]);
        var half = late.Length > 1 ? line.Half : steps.Step / 2;
        var beat = half * 2 * (time.Beat / time.Step).ToDouble();
        var tempo = new Tempo(time.Beat, Math.Round(60 / beat, 1));
        var notes = ImmutableArray.CreateBuilder<HeardNote>();
        var breaks = new List<(int First, Break Part)>();
        foreach (var (first, part) in (layout with { Tune = ChordFinder.WithChords(layout.Tune) }).Parts(BarsAtOnce))
        {
            stop.ThrowIfCancellationRequested();
            var solver = HandFinder.Solve(part, setting, 2 * half);
            if (!solver.Best.IsPossible)
                return null;
            notes.AddRange(Notes(part, solver).Select(note => note with { Bar = note.Bar + first }));
            breaks.Add((first, BreakAssembly.Assemble(part.Tune, solver.Lattice, solver.Best, tempo)));
        }
        return new(notes.ToImmutable(), cents)
        {
            Break = WithLicks(
                WithoutTune(
                    breaks[0].Part with
                    {
                        Bars = [.. breaks.SelectMany(one => one.Part.Bars)],
                        Spans =
                        [
                            .. breaks.SelectMany(one =>
                                one.Part.Spans.Select(span => span with { Bar = span.Bar + one.First })
                            ),
                        ],
                    }
                )
            ),
            BarTimes = late.Length < 2 ? [] : BarTimes(line, layout, before),
            Swing = steps.Swing,
        };
    }

    // A lick of the bank is named instead of the rolls that it is made of.
    private static Break WithLicks(Break written)
    {
        var licks = LickSpotter.Of(written, LickBank.BuiltIn);
        var bars = licks.Select(lick => lick.Bar).ToHashSet();
        return written with
        {
            Spans =
            [
                .. written
                    .Spans.Where(span => span.Kind != SpanKind.Roll || !bars.Contains(span.Bar))
                    .Concat(licks)
                    .OrderBy(span => span.Bar)
                    .ThenBy(span => span.At),
            ],
        };
    }

    private static ImmutableArray<double> BarTimes(TimeLine line, Layout layout, int before)
    {
        var whole = Layout.HalvesOf(layout.Tune.Time);
        return
        [
            .. Enumerable
                .Range(0, layout.Tune.Bars.Length + 1)
                .Select(bar => bar == 0 ? 0 : (bar * whole) - before)
                .Select(place => Math.Max(0, line.TimeOf(place))),
        ];
    }

    // Which of the notes is the tune, nobody has said.
    private static Break WithoutTune(Break written) =>
        written with
        {
            Tune = null,
            Bars =
            [
                .. written.Bars.Select(bar =>
                    bar with
                    {
                        Strokes = [.. bar.Strokes.Select(stroke => stroke with { IsMelody = false })],
                    }
                ),
            ],
        };

    private static ImmutableArray<HeardNote> Notes(Layout layout, Solver solver)
    {
        var (grid, setting) = (solver.Lattice.Grid, solver.Lattice.Setting);
        var at = layout.Moments.ToDictionary(laid => (laid.Bar, laid.At));
        var notes = ImmutableArray.CreateBuilder<HeardNote>();
        for (var step = 0; step < grid.Steps.Length; step++)
        {
            if (!at.TryGetValue((grid.Steps[step].Bar, grid.Steps[step].At), out var laid))
                continue;
            var done = solver.Best.Path[step];
            // What hands cannot have done beside the rest is told without them.
            if (done.SlurString == 0 && done.Event.Plucks.Length == 0)
                notes.AddRange(Bare([laid.Moment]));
            if (done.SlurString != 0)
                notes.Add(Note(done.SlurString) with { Slur = done.Slur });
            foreach (var (finger, on) in done.Event.Plucks.OrderBy(pluck => pluck.String))
                notes.Add(Note(on) with { Finger = finger });

            HeardNote Note(int on)
            {
                var fret = done.Shape.FretOn(on);
                var key = setting.SoundingKeyOf(on, fret);
                return new(laid.Moment.Onset, key, laid.Moment.ConfidenceIn(key))
                {
                    String = on,
                    Fret = fret,
                    Bar = laid.Bar,
                    At = laid.At,
                };
            }
        }
        return notes.ToImmutable();
    }

    /// <summary>What was heard, without hands: also where hands cannot have done it.</summary>
    public static IEnumerable<HeardNote> Bare(IEnumerable<Moment> moments) =>
        moments.SelectMany(moment =>
            moment.Keys.Select(key => new HeardNote(moment.Onset, key, moment.ConfidenceIn(key)))
        );

    private static IEnumerable<PlayedNote> Played(Moment moment, int at) =>
        moment.Keys.Select(pitch => new PlayedNote(
            new Fraction(at, 16),
            new Fraction(1, 8),
            Pitch.FromMidi(pitch, new Key(new(Letter.C)).Spell(pitch % 12)),
            at / 16
        ));
}
