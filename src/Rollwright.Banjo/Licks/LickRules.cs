using System.Collections.Immutable;
using Rollwright.Banjo.Playability;

namespace Rollwright.Banjo.Licks;

/// <summary>One thing that keeps a lick out of the bank.</summary>
/// <param name="Rule">Id: one of the playability rules, or "chord", "next-chord", "same-name", "same-notes".</param>
/// <param name="Words">What is wrong, as one sentence.</param>
/// <param name="Remedy">What to do.</param>
public sealed record LickFault(string Rule, string Words, string Remedy)
{
    public override string ToString() => $"{Words} [{Rule}]; {Remedy}";
}

/// <summary>What a lick must keep to, whoever wrote it: hands can play it, and it fits its chord.</summary>
public static class LickRules
{
    /// <summary>Empty where it keeps to all; what hands cannot do stands first.</summary>
    public static ImmutableArray<LickFault> Find(Lick lick) => [.. Hands(lick), .. Chords(lick)];

    private static IEnumerable<LickFault> Hands(Lick lick)
    {
        var written = LickBreak.Of(lick);
        foreach (var finding in Checker.Check(written))
        {
            var before = written.Bars.Take(finding.Bar).Aggregate(finding.At, (at, bar) => at + bar.Length);
            var step = (before / written.Time.Step).Floor() + 1;
            yield return new(finding.Rule, $"step {step}: {finding.Words}", "change the tab there");
        }
    }

    private static IEnumerable<LickFault> Chords(Lick lick)
    {
        foreach (var sound in ChordFit.Misfits(lick))
            yield return new(
                "chord",
                $"step {(sound.At / 2) + 1}: string {sound.String} at fret {sound.Fret} does not belong over {lick.Chord}",
                "name another chord, or move the note off the beat and on by a step"
            );
        if (lick.Role == LickRole.Turnaround && lick.Next is null)
            yield return new("next-chord", "a turnaround leads to a chord", "name the next chord");
    }
}
