using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Licks;

/// <summary>Takes the steps of a lick out of a bar that is played: the opposite of <see cref="LickBreak"/>.</summary>
public static class LickExtract
{
    /// <summary>Fewer steps are a note, not a lick (our own bound).</summary>
    public const int LeastSteps = 2;

    private static readonly Fraction Half = new(1, 2);

    /// <param name="played">The break.</param>
    /// <param name="bar">Index of the written bar.</param>
    /// <param name="from">Whole notes from its start.</param>
    /// <param name="to">Whole notes from its start, not itself taken.</param>
    /// <returns>One entry a step, or what keeps these notes from being a lick.</returns>
    public static (ImmutableArray<LickStep> Steps, LickFault? Fault) Of(
        Break played,
        int bar,
        Fraction from,
        Fraction to
    )
    {
        ArgumentNullException.ThrowIfNull(played);
        var step = played.Bars[bar].Time.Step;
        var count = (int)((to - from) / step).Floor();
        if (count < LeastSteps || step * count != to - from)
            return Refused("length", "these notes are too short for a lick", $"take {LeastSteps} whole steps or more");
        var steps = Enumerable.Repeat(LickStep.Rest, count).ToArray();
        foreach (var stroke in played.Bars[bar].Strokes.Where(own => own.At >= from && own.At < to))
        {
            var at = (stroke.At - from) / step;
            var index = (int)at.Floor();
            if (Add(steps, index, at % new Fraction(1), stroke) is { } fault)
                return ([], fault);
        }
        return steps.All(one => one.IsRest)
            ? Refused("notes", "nothing sounds there", "choose steps with notes")
            : ([.. steps], null);
    }

    private static LickFault? Add(LickStep[] steps, int index, Fraction within, Stroke stroke)
    {
        if (within != Fraction.Zero && (within != Half || stroke.Slur is null))
            return Fault(index, "a note falls between the steps", "a lick's notes stand on its steps; choose others");
        if (stroke is { Left: 0, Fret: > 0 })
            return Fault(index, "the thumb stops a string", "a lick takes fingers 1 to 4; choose other notes");
        var left = stroke.Fret == 0 ? 0 : stroke.Left ?? LickTab.UsualFinger(stroke.Fret);
        if (stroke.Slur is { } kind)
            return within == Fraction.Zero
                ? Slur(steps, index, index - 1, kind, stroke, left)
                : Slur(steps, index, index, kind, stroke, left);
        var note = new LickNote(stroke.String, stroke.Fret, stroke.Right!.Value, left);
        steps[index] = steps[index] with { Plucks = [.. steps[index].Plucks.Add(note).OrderBy(own => own.String)] };
        return null;
    }

    // A slur starts from the one note plucked at its own step, half a step before it, or at the step before.
    private static LickFault? Slur(LickStep[] steps, int index, int start, SlurKind kind, Stroke stroke, int left)
    {
        if (kind == SlurKind.Choke)
            return Fault(index, "a string is bent", "a lick has no chokes; choose other notes");
        if (start < 0)
            return Fault(index, "it begins with a slur out of the note before", "begin a step earlier");
        if (steps[start] is not { Plucks: [var from], Slur: null, HalfSlur: null } || from.String != stroke.String)
            return Fault(index, "the slur does not start from one plucked note right before it", "choose other notes");
        var slur = new LickSlur(kind, stroke.String, stroke.Fret, kind == SlurKind.Slide ? from.Left : left);
        steps[index] = start == index ? steps[index] with { HalfSlur = slur } : new([], slur, null);
        return null;
    }

    private static LickFault Fault(int index, string words, string remedy) =>
        new("notes", $"step {index + 1}: {words}", remedy);

    private static (ImmutableArray<LickStep>, LickFault?) Refused(string rule, string words, string remedy) =>
        ([], new(rule, words, remedy));
}
