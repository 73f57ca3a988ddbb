using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.TextTab;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Templates;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;

namespace Rollwright.Lessons.Plan;

/// <summary>Writes a lesson as plain text in Markdown, each phrase in words and in plain-text tab.</summary>
public static class LessonMarkdown
{
    private const string Guide =
        "\"Thumb 3\" means: the thumb plucks string 3, open unless a fret is said. String 1 is the thin one nearest the floor, "
        + "string 5 the short one. Right hand: thumb, index, middle. Left hand: the index, middle, ring and little finger; "
        + "\"middle\" alone is the right hand's, \"the middle finger\" the left's.";

    private const string LeftGuide =
        "\"By 1\": the finger is down when you count 1, and not much sooner; \"before 2\": it is off by then; \"at the end\": after the last note of the bar. A finger stays down until you are told to "
        + "move or lift it, and every phrase begins with a free left hand, but for what you were told to leave down; only a second ending goes on with the fingers as they lie in the bar that it follows.";

    private const string HalfWords = "\"At once\", and \"the half after\" a count, is half-way to the next count. ";

    /// <param name="lesson">The lesson, and what whoever teaches asked for.</param>
    public static string Write(Lesson lesson)
    {
        ArgumentNullException.ThrowIfNull(lesson);
        return LessonPlaces.Fill(lesson.Template ?? LessonTemplates.Lesson, lesson, new TextTabShown());
    }

    /// <param name="plan">The lesson.</param>
    /// <param name="edits">A person's words for phrases, which stand as they are; null for none.</param>
    /// <param name="form">How much is said of each phrase.</param>
    public static string Write(LessonPlan plan, LessonText? edits = null, WordForm form = WordForm.Long)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return Write(
            new Lesson
            {
                Plan = plan,
                Edits = edits ?? LessonText.Empty,
                Form = form,
                Times = BarTimes.At(plan.Played),
            }
        );
    }

    /// <summary>How the words of a lesson are to be read: a paragraph each for strings, counts and the left hand.</summary>
    internal static ImmutableArray<string> GuideTo(LessonPlan plan) => [Guide, CountWords(plan), LeftGuide];

    /// <summary>The bars of plain-text tab alone: the head that it carries stands at the top of the lesson already.</summary>
    internal static string TabOf(Break played) =>
        string.Join("\n\n", TextTabWriter.Write(played).Split("\n\n").Skip(2).Where(block => block.Contains('|')))
            .TrimEnd();

    private static string CountWords(LessonPlan plan)
    {
        var played = plan.Played;
        var time = played.Time;
        var counts = new Counting(played);
        var full = Enumerable.Range(0, played.Bars.Length).FirstOrDefault(bar => !played.Bars[bar].IsPartial);
        var count = string.Join(
            ", ",
            Enumerable.Range(0, (int)(time.Bar / time.Step).Floor()).Select(i => counts.Of(full, time.Step * i))
        );
        var aloud = count.Contains("-e", StringComparison.Ordinal) ? ", aloud \"one, ee, and, ah\"" : "";
        var taps = Counting.Listed([
            .. Enumerable.Range(0, (int)(time.Bar / time.Beat).Floor()).Select(i => counts.Of(full, time.Beat * i)),
        ]);
        return $"A bar of {time} is counted {count}{aloud}; the foot taps on {taps}. \"Count 1: …\" begins on count 1 and goes on with one note on each of these counts; where a note rings longer, the next count is said. "
            + "Before it stands what the left hand does for these notes. "
            + "\"Then wait\": nothing new until the count that is said next. "
            + (Glossary.HasHalves(plan) ? HalfWords : "")
            + "Bring the tune's notes out.";
    }
}
