using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Words;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Plan;

/// <summary>Says which phrases one can play with another, and where their pickups are not the same.</summary>
internal static class AlsoWords
{
    /// <summary>"With it you have phrase 3 (without the pickup) too." Empty where there is none.</summary>
    public static string Of(Break played, TeachingStep step)
    {
        if (step.Also.IsEmpty)
            return "";
        var phrases = BreakForm.Phrases(played).ToDictionary(phrase => phrase.Number);
        var own = Pickup(phrases[step.Phrase]);
        return $"With it you have {Counting.Listed([.. step.Also.Select(Named)])} too.";

        string Named(int number)
        {
            var other = Pickup(phrases[number]);
            var difference =
                other.AsSpan().SequenceEqual(own.AsSpan()) ? ""
                : other.IsEmpty ? " (without the pickup)"
                : " (its pickup is another: it stands in the whole break)";
            return $"phrase {number}{difference}";
        }

        ImmutableArray<(Fraction, int, int, RightFinger?, SlurKind?)> Pickup(Phrase phrase) =>
            [
                .. phrase
                    .Bars.Where(bar => played.Numbering[bar].IsShortInFront)
                    .SelectMany(bar => played.Bars[bar].Strokes)
                    .Select(stroke => (stroke.At, stroke.String, stroke.Fret, stroke.Right, stroke.Slur)),
            ];
    }
}
