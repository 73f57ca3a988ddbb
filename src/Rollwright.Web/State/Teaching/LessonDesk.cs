using Rollwright.Banjo.Breaks;
using Rollwright.Lessons;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Templates;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.Library;
using Rollwright.Music.Tunes;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.State.Teaching;

/// <summary>
/// The lesson of the break that lies on the bench: worked out when it is asked for, with a person's own words for its phrases,
/// which stay while the break changes, and are kept in the library where there is one.
/// </summary>
/// <param name="bench">What the lesson is about.</param>
/// <param name="shelf">Where the browser finds its documents.</param>
/// <param name="library">Where the words are kept; null keeps them while the page is open.</param>
public sealed class LessonDesk(Bench bench, LessonShelf shelf, TuneLibrary? library)
{
    private LessonText edits = LessonText.Empty;
    private Tune? tune;
    private Guid? wordsOf;
    private Guid lessonId = Guid.NewGuid();

    /// <summary>The lesson; null while it is not there.</summary>
    public Lesson? Lesson { get; private set; }

    /// <summary>Under which name its documents are asked for.</summary>
    public string Id { get; private set; } = "";

    /// <summary>The turn that the lesson is of.</summary>
    public Turn? Turn { get; private set; }

    /// <summary>Why there is none, or why words could not be kept; empty for no trouble.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>The lesson is another; called on any thread.</summary>
    public event EventHandler? Changed;

    public WordForm Form { get; private set; } = WordForm.Long;

    /// <summary>Works the lesson out where the break is another than before.</summary>
    public async Task Prepare()
    {
        if (bench.Now is not { } now || now == Turn)
            return;
        Turn = now;
        Trouble = "";
        if (tune != now.Arrangement.Tune)
            (tune, edits, wordsOf, lessonId) = (now.Arrangement.Tune, LessonText.Empty, null, Guid.NewGuid());
        await FetchWords();
        try
        {
            var plan = await bench.Ask(JobKind.Lesson, now, _ => LessonPlan.Of(now.Arrangement, now.Wishes.Level));
            if (Turn == now)
                Show(Lesson.Of(plan, now.Arrangement));
        }
        catch (Exception no) when (no is LessonException or JobException or OperationCanceledException)
        {
            // Whoever comes back to the page asks again.
            (Lesson, Turn) = (null, null);
            Trouble =
                no is OperationCanceledException ? "it was stopped; come back to the lesson to ask again" : no.Message;
        }
    }

    /// <summary>Puts a person's words in the place of the program's; empty words give the phrase back to it.</summary>
    public Task Say(int phrase, string words) => Edit((text, played) => text.With(played, phrase, words));

    /// <summary>Puts a person's words around the phrases, and takes their template.</summary>
    public Task SayAround(string introduction, string template) =>
        Edit((text, _) => text.Around(introduction, template));

    private async Task Edit(Func<LessonText, Break, LessonText> edit)
    {
        if (Lesson is not { } lesson)
            return;
        try
        {
            edits = edit(edits, lesson.Plan.Played);
            Trouble = "";
            Show(lesson);
            await KeepWords(lesson.Plan.Tune.Title);
        }
        catch (LessonException no)
        {
            Trouble = no.Message;
        }
        Changed?.Invoke(this, EventArgs.Empty);
    }

    /// <summary>How much the program says.</summary>
    public void Take(WordForm form)
    {
        Form = form;
        if (Lesson is { } lesson)
            Show(lesson);
    }

    private void Show(Lesson lesson)
    {
        Lesson = lesson with
        {
            Edits = edits,
            Form = Form,
            Introduction = Introduction.Of(edits.Introduction),
            Template = LessonTemplates.Own(edits),
        };
        Id = shelf.Put(Lesson);
        Changed?.Invoke(this, EventArgs.Empty);
    }

    // The words of one break are not those of another, and stay with it through all its turns.
    private async Task FetchWords()
    {
        if (library is null || bench.Keeping.BreakId is not { } kept || kept == wordsOf)
            return;
        try
        {
            wordsOf = kept;
            if (await library.LessonsAsync(kept) is [var first, ..])
                (lessonId, edits) = (first.Id, LessonTextJson.Read(first.Edits));
        }
        catch (Exception fault) when (fault is LibraryException or LessonException)
        {
            Trouble = fault.Message;
        }
    }

    private async Task KeepWords(string title)
    {
        if (library is null || bench.Keeping.BreakId is not { } kept)
            return;
        try
        {
            await library.KeepLessonAsync(lessonId, kept, title, LessonTextJson.Write(edits));
        }
        catch (LibraryException fault)
        {
            Trouble = $"{fault.Message}; your words are on this page, change one again to try once more";
        }
    }
}
