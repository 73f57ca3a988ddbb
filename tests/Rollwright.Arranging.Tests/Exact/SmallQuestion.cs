using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>A small tune with all that makes it a question: style, level, tuning, a few shapes a step.</summary>
/// <param name="Number">The seed that it came from.</param>
/// <param name="Tune">One to three short bars; some have short steps, repeats, two endings.</param>
/// <param name="Style">One that plays the tune.</param>
/// <param name="Level">1 to 5.</param>
/// <param name="Tuning">Any of the table.</param>
/// <param name="ShapesAStep">The most shapes at a step, those that licks end on not counted.</param>
/// <param name="IsTempting">Over chords that have licks, those and slurs are so cheap that the best path has some.</param>
public sealed record SmallQuestion(
    int Number,
    Tune Tune,
    Style Style,
    int Level,
    Tuning Tuning,
    int ShapesAStep,
    bool IsTempting
)
{
    /// <summary>Bars of the tune in a small question of each form: one, two repeated parts, two endings.</summary>
    private static readonly ImmutableArray<BarMarks>[] Forms =
    [
        [BarMarks.None],
        [BarMarks.None, BarMarks.None],
        [new() { RepeatStart = true, RepeatEnd = 2 }, new() { RepeatStart = true, RepeatEnd = 2 }],
        [
            new() { RepeatStart = true },
            new()
            {
                EndingStart = [1],
                EndingStop = true,
                RepeatEnd = 2,
            },
            new() { EndingStart = [2], EndingStop = true },
        ],
    ];

    private static readonly Chord[] ChordsOfLicks = [new(new(Letter.G)), new(new(Letter.C)), new(new(Letter.D))];

    /// <summary>The same question for the same number, on every machine.</summary>
    public static SmallQuestion Of(int number)
    {
        var random = new Random(number);
        // Every style and every form in turn, so that any run of sixteen has all of them.
        var style = StyleTable.Solo.ElementAt(number % 4);
        var marks = Forms[number / 4 % 4];
        var tune = TuneGenerator.Tunes(marks.Length).Generate(new PCG((uint)number, 7), null, out _);
        // Bars of a roll are whole; where there are more of them they are cut, so that the question stays small.
        var steps = marks.Length == 1 ? 8 : random.Next(3, 6);
        var isTempting = random.Next(3) == 0;
        var isOpenG = isTempting || random.Next(2) == 0;
        var bars = tune.Bars.Select((bar, i) => Divided(Cut(bar, steps), random) with { Marks = marks[i] });
        if (isTempting)
            bars = bars.Select(bar => bar with { Chords = [new(Fraction.Zero, ChordsOfLicks[random.Next(3)])] });
        return new(
            number,
            tune with
            {
                Bars = [.. bars],
            },
            style,
            random.Next(LevelTable.Lowest, LevelTable.Highest + 1),
            isOpenG ? TuningTable.OpenG : TuningTable.All[random.Next(TuningTable.All.Length)],
            random.Next(3, 7),
            isTempting
        );
    }

    public StepLattice Lattice()
    {
        var level = LevelTable.Of(Level);
        var setting = new Setting(Tuning, 0, Tune.Key, -12);
        return StepLattice.Build(
            StepGrid.Lay(Tune, setting, Style.FollowsTune),
            setting,
            level.Bounds with
            {
                ShapesAStep = ShapesAStep,
            },
            level.Apply(IsTempting ? Style.With(Tempt) : Style)
        );
    }

    /// <summary>The question as the arranger ends it: what repeats and equal bars ask for is laid over the lattice.</summary>
    public bool IsWhole => Number / 16 % 2 == 1;

    /// <summary>The arranger's answer.</summary>
    public Solver Solve()
    {
        var lattice = Lattice();
        return IsWhole ? TuneSolver.Solve(lattice) : Solver.Open(lattice, new(lattice.Grid.Steps.Length));
    }

    public override string ToString() =>
        $"question {Number}: {Style.Name}, level {Level}, {Tuning.Id}, {Tune.Key} {Tune.Time}, {Tune.Bars.Length} bars";

    private static Weights Tempt(Weights weights) =>
        weights.With(Term.Lick, 900).With(Term.Tag, 1500).With(Term.Slur, 40).With(Term.SlurOnBeat, 0);

    private static TuneBar Cut(TuneBar bar, int steps)
    {
        var length = Fraction.Min(bar.Length, bar.Time.Step * steps);
        return bar with
        {
            Length = length,
            Notes =
            [
                .. bar
                    .Notes.Where(note => note.At < length)
                    .Select(note => note with { Length = Fraction.Min(note.Length, length - note.At) }),
            ],
        };
    }

    // Now and then a note of one step becomes two, and one of two steps three.
    private static TuneBar Divided(TuneBar bar, Random random)
    {
        var notes = ImmutableArray.CreateBuilder<Note>();
        foreach (var note in bar.Notes)
        {
            var parts =
                random.Next(8) > 0 ? 1
                : note.Length == bar.Time.Step ? 2
                : 3;
            for (var i = 0; i < parts; i++)
            {
                var length = note.Length * new Fraction(1, parts);
                notes.Add(note with { At = note.At + (length * i), Length = length });
            }
        }
        return bar with { Notes = notes.ToImmutable() };
    }
}
