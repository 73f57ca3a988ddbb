using System.Collections.Immutable;
using System.Text;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Practice;
using Rollwright.Lessons.Templates;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;

namespace Rollwright.Lessons.Documents;

/// <summary>What stands at the places of a template: the parts of a lesson in Markdown.</summary>
internal sealed class LessonPlaces
{
    /// <summary>It tells of all figures, so it is filled when they are there.</summary>
    public const string Examples = "examples";

    private static readonly ImmutableDictionary<string, Func<LessonPlaces, string>> Known = new Dictionary<
        string,
        Func<LessonPlaces, string>
    >
    {
        ["title"] = places => PlainText.Of(places.plan.Tune.Title),
        ["introduction"] = places => places.lesson.Introduction.Markdown,
        ["opening"] = places => PlainText.Of(ArticleWords.Opening(places.plan)),
        ["about"] = places => Paragraph(places.plan.Tune.Sentences),
        ["rights"] = places => places.Rights(),
        ["credit"] = places => PlainText.Of(places.plan.Tune.Rights.Words),
        ["learn"] = places => List(places.plan.Learnt),
        ["why"] = places => Paragraph(places.plan.Why),
        ["setting-up"] = places => places.SettingUp(),
        ["chords"] = places => places.Chords(),
        ["form"] = places => places.Form(),
        ["reading"] = places => places.Reading(),
        ["break"] = places => places.music.Whole(places.plan.Played, "The whole break"),
        ["phrases"] = places => places.Phrases(),
        ["drills"] = places => places.Drills(),
        ["variations"] = places => List([.. places.plan.Variations.Select(one => $"{Upper(one.Name)}: {one.Changes}")]),
        ["behind"] = places => places.Behind(),
        ["practice"] = places => List(places.plan.Practice),
        ["plan"] = places => PlanTable.Of(places.plan.Played),
        ["cautions"] = _ => $"> {Cautions.Hands}\n>\n> {Cautions.Hearing}",
        [Examples] = places => places.music.List(),
    }.ToImmutableDictionary();

    private readonly Lesson lesson;
    private readonly LessonPlan plan;
    private readonly IMusicShown music;

    private LessonPlaces(Lesson lesson, IMusicShown music) =>
        (this.lesson, plan, this.music) = (lesson, lesson.Plan, music);

    /// <summary>Names of the places that a template may have.</summary>
    public static IReadOnlyCollection<string> Names => [.. Known.Keys];

    /// <summary>A template filled with a lesson.</summary>
    public static string Fill(Template template, Lesson lesson, IMusicShown music)
    {
        var places = new LessonPlaces(lesson, music);
        return template.Fill(name => Known[name](places), last: Examples);
    }

    private string Rights() =>
        plan.Tune.Rights.Warning.Length == 0 ? "" : $"> Before publishing: {PlainText.Of(plan.Tune.Rights.Warning)}";

    private string SettingUp() =>
        Paragraph(plan.Setting.Sentences) + (plan.Setting.TunesUp ? $"\n\n> {Cautions.Strings}" : "");

    private string Chords() =>
        $"{music.Chords(plan.Played, "The chords")}\n\n{List(ChordWords.Of(plan.Played))}".Trim();

    private string Reading() =>
        $"{string.Join("\n\n", LessonMarkdown.GuideTo(plan).Select(PlainText.Of))}\n\n{List(Glossary.Of(plan))}";

    private string Form() =>
        $"{List(plan.Form)}\n\nPhrases with the same letter are played the same and taught once.\n\n{music.Form(plan.Played, "The form: a cell for each phrase, with its bars and chords")}";

    private string Phrases()
    {
        var text = new StringBuilder();
        var shown = lesson.Edits.Over(plan.Played, plan.Words).ToDictionary(phrase => phrase.Words.Number);
        var phrases = BreakForm.Phrases(plan.Played).ToDictionary(phrase => phrase.Number);
        if (plan.Steps.Length > 1)
            text.Append(TeachingOrder.Words).Append("\n\n");
        foreach (var step in plan.Steps)
            Phrase(text, step, phrases[step.Phrase], shown[step.Phrase]);
        foreach (var lost in lesson.Edits.WithoutPhrase(plan.Played))
            text.Append($"> Words without a phrase (phrase {lost.Phrase} is gone), kept here:\n\n{lost.Text}\n\n");
        return text.ToString();
    }

    private void Phrase(StringBuilder text, TeachingStep step, Phrase phrase, PhraseText shown)
    {
        var where = Loop.Of(plan.Played, phrase.Bars).Name;
        text.Append($"### Phrase {step.Phrase} ({step.Letter}), {where}, part {PlainText.Of(step.Part)}\n\n");
        string[] about = [step.Why, AlsoWords.Of(plan.Played, step)];
        if (string.Join(' ', about.Where(one => one.Length > 0)) is { Length: > 0 } words)
            text.Append(words).Append("\n\n");
        var tab = music.Bars(plan.Played, phrase.Bars, $"Phrase {step.Phrase} ({step.Letter}), {where}");
        if (music is not TextTabShown)
            text.Append(tab).Append("\n\n");
        if (shown.State == EditState.NotesChanged)
            text.Append("> These words were written for other notes: read them again beside the tab.\n\n");
        if (shown.Edited is { } own)
            text.Append(own.Text.TrimEnd()).Append("\n\n");
        else
            text.Append(List(shown.In(lesson.Form).Split('\n'))).Append("\n\n");
        if (music is TextTabShown)
            text.Append(tab).Append("\n\n");
    }

    private string Drills()
    {
        var text = new StringBuilder();
        foreach (var drill in plan.Drills)
        {
            text.Append($"### {drill.Title}\n\n{PlainText.Of(drill.Words)}\n\n");
            foreach (var take in drill.Takes)
            {
                var all = Enumerable.Range(0, take.Played.Bars.Length).ToImmutableArray();
                if (take.Name.Length > 0 && !music.HasCaptions)
                    text.Append($"**{PlainText.Of(Upper(take.Name))}**\n\n");
                text.Append(List(take.Lines(lesson.Form))).Append("\n\n");
                text.Append(music.Bars(take.Played, all, take.Name.Length > 0 ? Upper(take.Name) : drill.Title))
                    .Append("\n\n");
            }
        }
        return text.ToString();
    }

    private string Behind()
    {
        var text = new StringBuilder();
        foreach (var part in plan.Behind)
        {
            text.Append(
                $"### {Upper(part.Name)}\n\n{part.Words} Its first phrase; do the same with the chords of the other bars:\n\n"
            );
            var first = BreakForm.Phrases(part.Played)[0];
            text.Append(List(part.FirstPhrase(lesson.Form))).Append("\n\n");
            text.Append(music.Bars(part.Played, first.Bars, $"{Upper(part.Name)}, the first phrase")).Append("\n\n");
        }
        return text.ToString();
    }

    private static string List(IReadOnlyCollection<string> lines) =>
        string.Join('\n', lines.Select(line => $"- {PlainText.Of(line)}"));

    private static string Paragraph(ImmutableArray<string> sentences) =>
        string.Join(' ', sentences.Select(PlainText.Of));

    private static string Upper(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
