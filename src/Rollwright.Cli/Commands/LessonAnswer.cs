using Rollwright.Banjo.Forms;
using Rollwright.Formats.Json;
using Rollwright.Lessons;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;

namespace Rollwright.Cli.Commands;

/// <summary>A lesson for machines.</summary>
internal static class LessonAnswer
{
    public static object Of(LessonPlan plan, LessonText edits)
    {
        var shown = edits.Over(plan.Played, plan.Words).ToDictionary(phrase => phrase.Words.Number);
        var phrases = BreakForm.Phrases(plan.Played).ToDictionary(phrase => phrase.Number);
        return new
        {
            title = plan.Tune.Title,
            tune = new
            {
                kind = plan.Tune.Kind,
                key = plan.Tune.Key,
                time = plan.Tune.Time,
                form = plan.Tune.Form,
                bars = plan.Tune.BarsPlayed,
                range = plan.Tune.Range,
                rights = plan.Tune.Rights.Kind.ToString().ToLowerInvariant(),
                source = plan.Tune.Rights.Words,
                warning = plan.Tune.Rights.Warning,
            },
            why = plan.Why,
            learn = plan.Learnt,
            setting = plan.Setting.Sentences,
            form = plan.Form,
            phrases = plan.Steps.Select(step => new
            {
                phrase = step.Phrase,
                part = step.Part,
                letter = step.Letter,
                reason = step.Reason.ToString().ToLowerInvariant(),
                times = step.Times,
                also = step.Also,
                written = phrases[step.Phrase].Bars,
                notes = NotesFingerprint.Of(plan.Played, phrases[step.Phrase]),
                @short = shown[step.Phrase].Words.Text(WordForm.Short),
                @long = shown[step.Phrase].Words.Text(WordForm.Long),
                own = shown[step.Phrase].Edited?.Text,
                marked = shown[step.Phrase].State == EditState.NotesChanged,
                sentences = shown[step.Phrase]
                    .Words.Sentences.Select(sentence => new
                    {
                        about = sentence.Kind.ToString(),
                        @short = sentence.Short,
                        @long = sentence.Long,
                        strokes = sentence.Strokes.Select(stroke => stroke.ToString()),
                        written = sentence.Bars,
                    }),
            }),
            drills = plan.Drills.Select(drill => new
            {
                kind = drill.Kind.ToString(),
                title = drill.Title,
                words = drill.Words,
                takes = drill.Takes.Select(take => new { name = take.Name, @break = Tree(take.Played) }),
            }),
            variations = plan.Variations.Select(one => new
            {
                name = one.Name,
                changes = one.Changes,
                @break = Tree(one.Played),
            }),
            behind = plan.Behind.Select(one => new
            {
                name = one.Name,
                words = one.Words,
                @break = Tree(one.Played),
            }),
            practice = plan.Practice,
            cautions = new[] { Cautions.Hands, Cautions.Hearing, Cautions.Strings },
        };
    }

    private static System.Text.Json.Nodes.JsonNode? Tree(Banjo.Breaks.Break played) =>
        System.Text.Json.Nodes.JsonNode.Parse(JsonWriter.Write(played));
}
