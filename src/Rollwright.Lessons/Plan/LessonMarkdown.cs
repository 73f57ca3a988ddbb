using System.Collections.Immutable;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Formats.TextTab;
using Rollwright.Lessons.Drills;
using Rollwright.Lessons.Practice;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;

namespace Rollwright.Lessons.Plan;

/// <summary>Writes a lesson as plain text in Markdown, each phrase in words and in plain-text tab.</summary>
public sealed class LessonMarkdown
{
    private const string Guide =
        "\"Thumb 3\" means: the thumb plucks string 3, open unless a fret is said. String 1 is the thin one nearest the floor, "
        + "string 5 the short one. Right hand: thumb, index, middle. Left hand: the index, middle, ring and little finger. ";

    private readonly LessonPlan plan;
    private readonly LessonText edits;
    private readonly WordForm form;
    private readonly StringBuilder text = new();

    private LessonMarkdown(LessonPlan plan, LessonText edits, WordForm form) =>
        (this.plan, this.edits, this.form) = (plan, edits, form);

    /// <param name="plan">The lesson.</param>
    /// <param name="edits">A person's words for phrases, which stand as they are; null for none.</param>
    /// <param name="form">How much is said of each phrase.</param>
    public static string Write(LessonPlan plan, LessonText? edits = null, WordForm form = WordForm.Long)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var writer = new LessonMarkdown(plan, edits ?? LessonText.Empty, form);
        writer.Write();
        return writer.text.ToString();
    }

    private void Write()
    {
        text.Append($"# {Plain(plan.Tune.Title)}\n\n").Append(Paragraph(plan.Tune.Sentences)).Append("\n\n");
        if (plan.Tune.Rights.Warning.Length > 0)
            text.Append($"> Before publishing: {Plain(plan.Tune.Rights.Warning)}\n\n");
        Head("What you will learn");
        List(plan.Learnt);
        if (!plan.Why.IsEmpty)
        {
            Head("Why it is played so");
            text.Append(Paragraph(plan.Why)).Append("\n\n");
        }
        Head("Setting up");
        text.Append(Paragraph(plan.Setting.Sentences)).Append("\n\n");
        if (plan.Setting.TunesUp)
            text.Append($"> {Cautions.Strings}\n\n");
        Head("The form");
        List(plan.Form);
        text.Append("Phrases with the same letter are played the same and taught once.\n\n");
        Head("How to read the words");
        text.Append(GuideTo(plan)).Append("\n\n");
        Head("Phrase by phrase");
        var shown = edits.Over(plan.Played, plan.Words).ToDictionary(phrase => phrase.Words.Number);
        foreach (var step in plan.Steps)
            Phrase(step, shown[step.Phrase]);
        foreach (var lost in edits.WithoutPhrase(plan.Played))
            text.Append($"> Words without a phrase (phrase {lost.Phrase} is gone), kept here:\n\n{lost.Text}\n\n");
        Drills();
        Others();
        Head("How to practise it");
        List(plan.Practice);
        text.Append($"> {Cautions.Hands}\n>\n> {Cautions.Hearing}\n");
    }

    /// <summary>How the words of a lesson are to be read.</summary>
    internal static string GuideTo(LessonPlan plan) => Guide + StepWords(plan.Played);

    /// <summary>The bars of plain-text tab alone: the head that it carries stands at the top of the lesson already.</summary>
    internal static string TabOf(Break played) =>
        string.Join("\n\n", TextTabWriter.Write(played).Split("\n\n").Skip(2).Where(block => block.Contains('|')))
            .TrimEnd();

    private static string StepWords(Break played)
    {
        var time = played.Time;
        var counts = new Counting(played);
        var full = Enumerable.Range(0, played.Bars.Length).FirstOrDefault(bar => !played.Bars[bar].IsPartial);
        var count = string.Join(
            ", ",
            Enumerable.Range(0, (int)(time.Bar / time.Step).Floor()).Select(i => counts.Of(full, time.Step * i))
        );
        return $"A bar of {time} is counted {count}. \"From 1: …\" goes on with one note on each of these counts; where a note rings longer, the next count is said. "
            + "\"At once\" is half-way to the next count.";
    }

    private void Phrase(TeachingStep step, PhraseText shown)
    {
        var phrase = BreakForm.Phrases(plan.Played).First(one => one.Number == step.Phrase);
        var where = Loop.Of(plan.Played, phrase.Bars).Name;
        text.Append($"### Phrase {step.Phrase} ({step.Letter}), {where}, part {Plain(step.Part)}\n\n");
        string[] about =
        [
            step.Why,
            step.Also.IsEmpty
                ? ""
                : $"With it you have {Counting.Listed([.. step.Also.Select(number => $"phrase {number}")])} too.",
        ];
        if (string.Join(' ', about.Where(one => one.Length > 0)) is { Length: > 0 } words)
            text.Append(words).Append("\n\n");
        if (shown.State == EditState.NotesChanged)
            text.Append("> These words were written for other notes: read them again beside the tab.\n\n");
        if (shown.Edited is { } own)
            text.Append(own.Text.TrimEnd()).Append("\n\n");
        else
            List(shown.In(form).Split('\n'));
        Tab(Excerpt.Of(plan.Played, phrase.Bars, plan.Played.Title));
    }

    private void Drills()
    {
        if (plan.Drills.IsEmpty)
            return;
        Head("Drills");
        foreach (var drill in plan.Drills)
        {
            text.Append($"### {drill.Title}\n\n{Plain(drill.Words)}\n\n");
            foreach (var take in drill.Takes)
            {
                if (take.Name.Length > 0)
                    text.Append($"**{Plain(take.Name)}**\n\n");
                foreach (var phrase in PhraseWords.Of(take.Played))
                    List(phrase.Text(WordForm.Short).Split('\n'));
                Tab(take.Played);
            }
        }
    }

    private void Others()
    {
        if (!plan.Variations.IsEmpty)
        {
            Head("Variations");
            List([.. plan.Variations.Select(one => $"{Upper(one.Name)}: {one.Changes}")]);
        }
        if (plan.Behind.IsEmpty)
            return;
        Head("Behind the others");
        foreach (var part in plan.Behind)
        {
            text.Append($"### {Upper(part.Name)}\n\n{part.Words} Its first phrase:\n\n");
            var first = BreakForm.Phrases(part.Played)[0];
            List(PhraseWords.Of(part.Played, [first.Number])[0].Text(form).Split('\n'));
            Tab(Excerpt.Of(part.Played, first.Bars, part.Played.Title));
        }
    }

    private void Head(string title) => text.Append($"## {title}\n\n");

    private void List(IReadOnlyCollection<string> lines)
    {
        foreach (var line in lines)
            text.Append($"- {Plain(line)}\n");
        text.Append('\n');
    }

    private void Tab(Break played) => text.Append($"```\n{TabOf(played)}\n```\n\n");

    private static string Paragraph(ImmutableArray<string> sentences) => string.Join(' ', sentences.Select(Plain));

    private static string Upper(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    // Titles and names come from anywhere: nothing in them is a mark of Markdown, or markup.
    private static string Plain(string words)
    {
        var plain = new StringBuilder(words.Length);
        foreach (var sign in words)
        {
            if (sign is '\\' or '`' or '*' or '_' or '[' or ']' or '<' or '>' or '|')
                plain.Append('\\');
            plain.Append(char.IsControl(sign) ? ' ' : sign);
        }
        return plain.ToString();
    }
}
