using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Backup;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Plan;

/// <summary>What to play while someone else has the tune.</summary>
/// <param name="Name">"rolls", "vamp".</param>
/// <param name="Words">What it is for.</param>
/// <param name="Played">The part.</param>
public sealed record BehindOthers(string Name, string Words, Break Played)
{
    /// <summary>The part's first phrase in words, a line for each bar.</summary>
    public ImmutableArray<string> FirstPhrase(WordForm form) =>
        [.. PhraseWords.Of(Played, [BreakForm.Phrases(Played)[0].Number])[0].Text(form).Split('\n')];

    // Someone else has the tune: where a note happens to be one of its, nobody listens for it or plays it louder.
    private static Break WithoutTune(Break part) =>
        part with
        {
            Tune = null,
            Bars =
            [
                .. part.Bars.Select(bar =>
                    bar with
                    {
                        Strokes = [.. bar.Strokes.Select(stroke => stroke with { IsMelody = false })],
                    }
                ),
            ],
        };

    /// <summary>What the level can hold: rolls for everybody, a vamp where the hand has closed chords.</summary>
    public static ImmutableArray<BehindOthers> Of(Arrangement made, int level)
    {
        ArgumentNullException.ThrowIfNull(made);
        var parts = ImmutableArray.CreateBuilder<BehindOthers>();
        Add(
            BackupKind.Rolls,
            "rolls",
            "Rolls over a bass line, softer than the one who has the tune: behind a fiddle or a singer."
        );
        Add(
            BackupKind.Vamp,
            "vamp",
            "Bass on the beat, a short pinch off it: behind another banjo or a mandolin's break. After each pinch loosen the left fingers but leave them on the strings, so that it is short; lay them on open strings to stop those."
        );
        return parts.ToImmutable();

        void Add(BackupKind kind, string name, string words)
        {
            try
            {
                parts.Add(new(name, words, WithoutTune(made.BackupPart(kind, level).Break)));
            }
            catch (ArrangeException)
            {
                // A beginner's hand cannot hold these chords closed: the lesson goes without.
            }
        }
    }
}
