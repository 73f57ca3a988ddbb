using System.Collections.Immutable;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Engraving;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Drills;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Player;
using Rollwright.Lessons.Practice;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.Sound;

namespace Rollwright.Lessons.Page;

/// <summary>
/// A lesson as one HTML file that opens without a server: words, tab and sound, phrases to be gone through, licks to be put
/// in, drills, versions, parts behind others.
/// </summary>
public sealed class LessonPage
{
    // Pieces of music are told apart by these names; the break's own is what the script calls it.
    private const string Main = "break";

    // What the player's own words may need, over those of the page: ASCII, and the dashes and quotes of print.
    private static readonly string PlayerLetters =
        string.Concat(Enumerable.Range(32, 95).Select(letter => (char)letter)) + "–—’“”…×·";

    private readonly Lesson lesson;
    private readonly LessonPlan plan;
    private readonly ImmutableArray<LickSwap> swaps;
    private readonly LessonScores scores;
    private readonly PageFigures figures = new();
    private readonly StringBuilder html = new();

    private LessonPage(Lesson lesson)
    {
        (this.lesson, plan) = (lesson, lesson.Plan);
        swaps = lesson.Swaps;
        scores = new(plan.Played);
    }

    /// <exception cref="SoundException">The break is too long to be sounded.</exception>
    public static string Write(Lesson lesson)
    {
        ArgumentNullException.ThrowIfNull(lesson);
        var page = new LessonPage(lesson);
        page.Write();
        var main = page.html.ToString();
        return PageFile.Write(
            $"{lesson.Plan.Tune.Title}: a lesson",
            [
                PlayerAssets.Text("palette.css"),
                PlayerAssets.Text("page.css"),
                PlayerAssets.Text("player.css"),
                PlayerAssets.Text("lesson.css"),
                page.figures.FontsWith(PlayerLetters + main),
            ],
            main,
            page.scores.Pack(page.figures.Packed),
            "lesson.js",
            """entry.teach(root, document.getElementById("break"), worklet, told);""",
            lesson.Video is not null
        );
    }

    private void Write()
    {
        Top();
        if (lesson.Video is { } video)
            Take(video);
        Whole();
        Phrases();
        Drills();
        Others();
        Section("practice", "How to practise it", () => List(plan.Practice));
    }

    private void Top()
    {
        html.Append($"<header class=\"sheet\">\n<h1>{Text(plan.Tune.Title)}</h1>\n");
        Paragraph(plan.Tune.Sentences, "setting");
        if (lesson.Introduction.Markdown.Length > 0)
            html.Append(
                $"<div class=\"own\">\n{OwnMarkdown.ToHtml(lesson.Introduction.Markdown, lesson.Introduction)}</div>\n"
            );
        html.Append("<h2>What you will learn</h2>\n");
        List(plan.Learnt);
        if (!plan.Why.IsEmpty)
        {
            html.Append("<h2>Why it is played so</h2>\n");
            Paragraph(plan.Why);
        }
        html.Append("<h2>Setting up</h2>\n");
        Paragraph(plan.Setting.Sentences);
        if (plan.Setting.TunesUp)
            html.Append($"<p class=\"caution\">{Text(Cautions.Strings)}</p>\n");
        html.Append("<details class=\"reading\"><summary>How to read the words and the tab</summary>\n");
        foreach (var paragraph in LessonMarkdown.GuideTo(plan))
            html.Append($"<p>{Text(paragraph)}</p>\n");
        List(Glossary.Of(plan));
        html.Append("</details>\n");
        Form();
        html.Append("</header>\n");
    }

    // A cell a phrase, which leads to where it is taught.
    private void Form()
    {
        var taught = plan
            .Steps.SelectMany(step => step.Also.Append(step.Phrase).Select(number => (number, step)))
            .ToDictionary(pair => pair.number, pair => pair.step);
        html.Append("<nav class=\"form\" aria-label=\"Form of the tune\">\n");
        foreach (var part in BreakForm.Of(plan.Played))
        {
            html.Append($"<p><span class=\"part\">{Text(part.Name)}</span>");
            foreach (var phrase in part.Phrases)
            {
                var step = taught[phrase.Number];
                html.Append(
                    $" <a href=\"#phrase-{step.Phrase}\" aria-label=\"Phrase {phrase.Number}, {Text(step.Letter)}\">{Text(step.Letter)}</a>"
                );
            }
            html.Append(part.Times > 1 ? $" <span>{part.Times} times</span></p>\n" : "</p>\n");
        }
        html.Append("</nav>\n");
    }

    private void Take(LessonVideo shown)
    {
        html.Append(TakeMarkup.Of(shown));
        var words = lesson
            .Edits.Over(plan.Played, plan.Words)
            .ToDictionary(phrase => phrase.Words.Number, phrase => phrase.In(WordForm.Short));
        // What is played the same is said the same.
        foreach (var step in plan.Steps)
        {
            foreach (var also in step.Also)
                words[also] = words[step.Phrase];
        }
        scores.Add(shown.Times, words);
    }

    private void Whole() =>
        Section(
            "whole",
            "The break",
            () =>
            {
                Hear("Play the break", "", null);
                html.Append($"<figure class=\"drawing\" data-piece=\"{Main}\">{figures.Whole(plan.Played)}</figure>\n");
                TextTab(plan.Played);
            }
        );

    private void Phrases()
    {
        html.Append(
            "<section class=\"phrases\" aria-labelledby=\"phrases\">\n<h2 id=\"phrases\">Phrase by phrase</h2>\n"
        );
        if (plan.Steps.Length > 1)
            html.Append($"<p>{TeachingOrder.Words}</p>\n");
        var shown = lesson.Edits.Over(plan.Played, plan.Words).ToDictionary(phrase => phrase.Words.Number);
        var phrases = BreakForm.Phrases(plan.Played).ToDictionary(phrase => phrase.Number);
        foreach (var step in plan.Steps)
            Phrase(step, phrases[step.Phrase], shown[step.Phrase]);
        foreach (var lost in lesson.Edits.WithoutPhrase(plan.Played))
            html.Append(
                $"<div class=\"sheet\"><p class=\"warning\">Words without a phrase (phrase {lost.Phrase} is gone), kept here:</p>{OwnMarkdown.ToHtml(lost.Text)}</div>\n"
            );
        html.Append("</section>\n");
    }

    private void Phrase(TeachingStep step, Phrase phrase, PhraseText words)
    {
        var where = Loop.Of(plan.Played, phrase.Bars).Name;
        html.Append(
            $"<section class=\"sheet phrase\" id=\"phrase-{step.Phrase}\" aria-labelledby=\"phrase-{step.Phrase}-head\">\n"
        );
        html.Append(
            $"<h3 id=\"phrase-{step.Phrase}-head\">Phrase {step.Phrase} ({Text(step.Letter)}) <small>{Text(where)}, part {Text(step.Part)}</small></h3>\n"
        );
        Hear($"Play phrase {step.Phrase}", "", step.Phrase);
        if (step.Why.Length > 0)
            html.Append($"<p>{Text(step.Why)}</p>\n");
        if (AlsoWords.Of(plan.Played, step) is { Length: > 0 } also)
            html.Append($"<p>{Text(also)}</p>\n");
        var own = swaps.Where(swap => swap.Phrase == step.Phrase).ToList();
        Version(step.Phrase, "", phrase, plan.Played, words);
        foreach (var swap in own)
        {
            var said = PhraseWords.Of(swap.Played, [step.Phrase])[0];
            Version(step.Phrase, Number(swap), phrase, swap.Played, new(said, null, EditState.None));
            scores.Add(swap);
        }
        if (own.Count > 0)
            Choice(step.Phrase, own);
        html.Append("</section>\n");
    }

    private string Number(LickSwap swap) => $"{swaps.IndexOf(swap)}";

    // As it is written, or with a lick: one of them is seen, heard and read.
    private void Version(int number, string version, Phrase phrase, Break played, PhraseText words)
    {
        html.Append(
            $"<div data-version-of=\"phrase-{number}-lick\" data-version=\"{version}\"{(version.Length > 0 ? " hidden" : "")}>\n"
        );
        html.Append(
            $"<figure class=\"drawing\" data-piece=\"{Main}\">{figures.Bars(played, phrase.Bars, isFull: version.Length == 0)}</figure>\n"
        );
        if (words.State == EditState.NotesChanged)
            html.Append(
                "<p class=\"warning\">These words were written for other notes: read them again beside the tab.</p>\n"
            );
        if (words.Edited is { } edited)
            html.Append(OwnMarkdown.ToHtml(edited.Text));
        else
            List(words.In(lesson.Form).Split('\n'));
        TextTab(Excerpt.Of(played, phrase.Bars, played.Title));
        html.Append("</div>\n");
    }

    private void Choice(int number, List<LickSwap> own)
    {
        html.Append(
            "<fieldset class=\"licks\"><legend>Other licks fit here: choose one, and play the phrase</legend>\n"
        );
        Option(number, "", "as it is written");
        foreach (var swap in own)
            Option(number, Number(swap), $"{swap.Name} ({swap.Where})");
        html.Append("</fieldset>\n");
    }

    private void Option(int number, string value, string words) =>
        html.Append(
            $"<label><input type=\"radio\" data-swap name=\"phrase-{number}-lick\" value=\"{value}\"{(value.Length == 0 ? " checked" : "")}> {Text(words)}</label>\n"
        );

    private void Drills()
    {
        if (plan.Drills.IsEmpty)
            return;
        html.Append("<section aria-labelledby=\"drills\">\n<h2 id=\"drills\">Drills</h2>\n");
        foreach (var (drill, number) in plan.Drills.Select((drill, i) => (drill, i + 1)))
        {
            html.Append($"<section class=\"sheet\">\n<h3>{Text(drill.Title)}</h3>\n<p>{Text(drill.Words)}</p>\n");
            foreach (var (take, i) in drill.Takes.Select((take, i) => (take, i)))
            {
                Piece($"drill-{number}-{i + 1}", take.Name, take.Played, isWhole: false);
                List(take.Lines(lesson.Form));
            }
            html.Append("</section>\n");
        }
        html.Append("</section>\n");
    }

    private void Others()
    {
        if (!plan.Variations.IsEmpty)
        {
            html.Append("<section aria-labelledby=\"versions\">\n<h2 id=\"versions\">Other ways to play it</h2>\n");
            foreach (var (one, i) in plan.Variations.Select((one, i) => (one, i)))
                Other($"version-{i + 1}", one.Name, one.Changes, one.Played, []);
            html.Append("</section>\n");
        }
        if (plan.Behind.IsEmpty)
            return;
        html.Append("<section aria-labelledby=\"behind\">\n<h2 id=\"behind\">Behind the others</h2>\n");
        foreach (var (part, i) in plan.Behind.Select((part, i) => (part, i)))
            Other($"behind-{i + 1}", part.Name, part.Words, part.Played, part.FirstPhrase(lesson.Form));
        html.Append("</section>\n");
    }

    private void Other(string piece, string name, string words, Break played, ImmutableArray<string> firstPhrase)
    {
        html.Append($"<section class=\"sheet\">\n<h3>{Text(Upper(name))}</h3>\n<p>{Text(words)}</p>\n");
        Piece(piece, "", played, isWhole: true);
        if (!firstPhrase.IsEmpty)
        {
            html.Append("<p>Its first phrase; do the same with the chords of the other bars:</p>\n");
            List(firstPhrase);
        }
        html.Append("</section>\n");
    }

    // Something that is heard by itself, with its tab.
    private void Piece(string piece, string name, Break played, bool isWhole)
    {
        if (name.Length > 0)
            html.Append($"<h4>{Text(name)}</h4>\n");
        Hear(name.Length > 0 ? $"Play {name}" : "Play it", piece, null);
        var drawn = isWhole ? figures.TabOf(played) : figures.Small(played);
        html.Append($"<figure class=\"drawing\" data-piece=\"{piece}\">{drawn}</figure>\n");
        TextTab(played);
        scores.Add(piece, played);
    }

    private void Hear(string words, string piece, int? phrase) =>
        html.Append(
            $"<p class=\"hear\"><button type=\"button\" data-hear=\"{piece}\"{(phrase is null ? "" : $" data-phrase=\"{phrase}\"")} aria-pressed=\"false\">{Text(words)}</button></p>\n"
        );

    private void TextTab(Break played) =>
        html.Append(
            $"<details class=\"plain\"><summary>The same as plain text</summary>\n<pre tabindex=\"0\">{Text(LessonMarkdown.TabOf(played))}</pre>\n</details>\n"
        );

    private void Section(string id, string title, Action write)
    {
        html.Append($"<section class=\"sheet\" aria-labelledby=\"{id}\">\n<h2 id=\"{id}\">{title}</h2>\n");
        write();
        html.Append("</section>\n");
    }

    private void List(IReadOnlyCollection<string> lines) =>
        html.Append("<ul>\n").AppendJoin('\n', lines.Select(line => $"<li>{Text(line)}</li>")).Append("\n</ul>\n");

    private void Paragraph(ImmutableArray<string> sentences, string? kind = null) =>
        html.Append($"<p{(kind is null ? "" : $" class=\"{kind}\"")}>{Text(string.Join(' ', sentences))}</p>\n");

    private static string Text(string words) => PageFile.Escaped(words);

    private static string Upper(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
