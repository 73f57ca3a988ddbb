using System.Collections.Immutable;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Chording;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Variations;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging;

/// <summary>From a tune to a break: chords where they lack, the setting, the lattice, the exact path, the break.</summary>
public static class Arranger
{
    private static readonly Tempo UsualTempo = new(new Fraction(1, 2), 80);

    /// <summary>The best break of a tune.</summary>
    /// <exception cref="ArrangeException">The tune has no notes, or none that the banjo has in any setting asked for.</exception>
    public static Arrangement Arrange(Tune tune, ArrangeOptions? options = null)
    {
        options ??= ArrangeOptions.Default;
        var chorded = Prepare(options.SecondTime is null ? tune : tune.WrittenOut());
        var drafts = new Drafts(chorded, options);
        var (best, settings) = drafts.BestOf(options.Style ?? StyleTable.Roll) ?? throw Impossible(chorded, options);
        if (options.Style is null && !Advisor.RollsSuit(best.Draft))
            (best, settings) = drafts.BestOf(StyleTable.Find("mixed")!) ?? throw Impossible(chorded, options);
        var solver = TuneSolver.Finish(best.Draft);
        if (options.SecondTime is { } differs)
            solver = SecondTime.Vary(solver, tune.Order, differs);
        return new(chorded, tune.Tempo ?? TempoFor(tune.Time), solver, settings, !tune.HasChords, []);
    }

    /// <summary>Settings and styles compared, phrase by phrase, by solving the tune in them.</summary>
    /// <exception cref="ArrangeException">The tune has no notes, or none that the banjo has in any setting asked for.</exception>
    public static TuneAdvice Advise(Tune tune, ArrangeOptions? options = null)
    {
        options ??= ArrangeOptions.Default;
        var chorded = Prepare(tune);
        var drafts = new Drafts(chorded, options);
        if (drafts.Of(StyleTable.Roll).IsEmpty)
            throw Impossible(chorded, options);
        return Advisor.Of(chorded, drafts);
    }

    private static Tune Prepare(Tune tune)
    {
        if (tune.Bars.All(bar => bar.Notes.IsEmpty))
            throw new ArrangeException($"'{tune.Title}' has no notes; write its melody, then arrange it.");
        var keyed = tune.IsKeyGiven ? tune : KeyFinder.WithKey(tune);
        return keyed.HasChords ? keyed : ChordFinder.WithChords(keyed);
    }

    private static ArrangeException Impossible(Tune tune, ArrangeOptions options)
    {
        if (options.Octave is not { } octave)
            return new(
                $"The notes of '{tune.Title}' do not lie on a banjo in this setting; choose another key, tuning or capo."
            );
        var style = options.Style ?? StyleTable.Roll;
        var held = SettingAdvice
            .For(tune, options with { Octave = null }, style)
            .Select(offer => offer.Setting.Octave)
            .Distinct()
            .Order()
            .Select(OctaveWords.Of)
            .ToArray();
        return new(
            $"The notes of '{tune.Title}' do not lie on a banjo {OctaveWords.Of(octave)} in this setting; "
                + (
                    held.Length == 0
                        ? "nor in any other octave: choose another key, tuning or capo."
                        : $"they do {string.Join(", ", held)}: choose such an octave, or another key, tuning or capo."
                )
        );
    }

    // A tempo to learn and to play along at, with the unit that its metre is counted in (common practice, no source).
    internal static Tempo TempoFor(TimeSignature time) =>
        time.IsCompound ? new(time.Beat, 90)
        : time.Beats == 3 ? new(new Fraction(1, 4), 120)
        : time is { Beats: 2, Unit: 4 } ? new(new Fraction(1, 4), 80)
        : UsualTempo;
}
