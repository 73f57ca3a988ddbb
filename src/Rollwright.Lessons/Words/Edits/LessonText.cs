using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Templates;

namespace Rollwright.Lessons.Words.Edits;

/// <summary>How a person's words stand to the break of today.</summary>
public enum EditState
{
    /// <summary>The words are the program's.</summary>
    None,

    /// <summary>The notes are those that the words were written for.</summary>
    Fits,

    /// <summary>The notes under them have changed since: to be read again.</summary>
    NotesChanged,
}

/// <summary>The words of a phrase as they are to be shown.</summary>
/// <param name="Words">What the program says.</param>
/// <param name="Edited">What a person says instead; null where nobody has.</param>
/// <param name="State">Whether it still fits.</param>
public sealed record PhraseText(PhraseWords Words, WordEdit? Edited, EditState State)
{
    public string In(WordForm form) => Edited?.Text ?? Words.Text(form);
}

/// <summary>
/// A person's words for a lesson: for the phrases of its break, and around them. Nothing is lost when the break changes: words
/// stay and are marked.
/// </summary>
/// <param name="Edits">At most one for a phrase, in the order in which they were written.</param>
public sealed record LessonText(ImmutableArray<WordEdit> Edits)
{
    /// <summary>More words than this for one phrase are refused, in characters.</summary>
    public const int LongestText = 20_000;

    /// <summary>More than this of an introduction or a template is refused, in characters.</summary>
    public const int LongestAround = 200_000;

    public static LessonText Empty { get; } = new([]);

    /// <summary>What whoever teaches says first, in Markdown; empty for nothing.</summary>
    public string Introduction { get; init; } = "";

    /// <summary>The template of the column, Markdown with places; empty for the program's own.</summary>
    public string Template { get; init; } = "";

    /// <summary>With other words for a phrase; empty or blank words give the phrase back to the program.</summary>
    /// <param name="played">The break as it is now.</param>
    /// <param name="phrase">Number of the phrase.</param>
    /// <param name="text">The words.</param>
    /// <exception cref="LessonException">There is no such phrase, or the text is too long.</exception>
    public LessonText With(Break played, int phrase, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var phrases = BreakForm.Phrases(played);
        var edited =
            phrases.FirstOrDefault(one => one.Number == phrase)
            ?? throw new LessonException($"there is no phrase {phrase}; the break has phrases 1 to {phrases.Length}");
        if (text.Length > LongestText)
            throw new LessonException(
                $"the words for phrase {phrase} have {text.Length} characters; {LongestText} are the most"
            );
        var before = Placed(played).TryGetValue(phrase, out var placed) ? placed.Edit : null;
        var others = Edits.Where(edit => edit != before);
        return this with
        {
            Edits = string.IsNullOrWhiteSpace(text)
                ? [.. others]
                : [.. others, new(phrase, NotesFingerprint.Of(played, edited), text)],
        };
    }

    /// <summary>With other words around the phrases.</summary>
    /// <param name="introduction">Markdown, without pictures: those are files, which a text alone does not bring along.</param>
    /// <param name="template">Markdown with places; blank for the program's own.</param>
    /// <exception cref="LessonException">One is too long, asks for a picture, or has a place that is none; with line and column.</exception>
    public LessonText Around(string introduction, string template)
    {
        ArgumentNullException.ThrowIfNull(introduction);
        ArgumentNullException.ThrowIfNull(template);
        if (Math.Max(introduction.Length, template.Length) > LongestAround)
            throw new LessonException($"the text is too long: {LongestAround} characters are the most");
        if (Documents.Introduction.PicturesIn(introduction) is [var picture, ..])
            throw new LessonException(
                $"introduction:{picture.Line}:{picture.Column}: a picture cannot come along here; 'rollwright lesson --introduction FILE' takes it from beside the file"
            );
        var own = string.IsNullOrWhiteSpace(template) ? "" : template;
        if (own.Length > 0)
            LessonTemplates.Parse(own, "template");
        return this with { Introduction = introduction.Trim(), Template = own };
    }

    /// <summary>Every phrase with its words.</summary>
    /// <param name="played">The break as it is now.</param>
    /// <param name="words">What the program says of it, in any order.</param>
    public ImmutableArray<PhraseText> Over(Break played, ImmutableArray<PhraseWords> words)
    {
        var placed = Placed(played);
        return
        [
            .. words.Select(phrase =>
                placed.TryGetValue(phrase.Number, out var found)
                    ? new PhraseText(phrase, found.Edit, found.State)
                    : new(phrase, null, EditState.None)
            ),
        ];
    }

    /// <summary>Words whose phrase is no longer there: kept, to be put elsewhere or thrown away by hand.</summary>
    public ImmutableArray<WordEdit> WithoutPhrase(Break played)
    {
        var placed = Placed(played).Values.Select(found => found.Edit).ToHashSet();
        return [.. Edits.Where(edit => !placed.Contains(edit))];
    }

    // First where number and notes are the same; then where the notes have gone to another place; what is left stays with its
    // number and is marked.
    private Dictionary<int, (WordEdit Edit, EditState State)> Placed(Break played)
    {
        var prints = BreakForm
            .Phrases(played)
            .ToDictionary(phrase => phrase.Number, phrase => NotesFingerprint.Of(played, phrase));
        var placed = new Dictionary<int, (WordEdit, EditState)>();
        var left = new List<WordEdit>();
        foreach (var edit in Edits)
        {
            if (prints.GetValueOrDefault(edit.Phrase) == edit.Notes)
                placed[edit.Phrase] = (edit, EditState.Fits);
            else
                left.Add(edit);
        }
        foreach (var edit in left.ToList())
        {
            var moved = prints
                .Where(print => print.Value == edit.Notes && !placed.ContainsKey(print.Key))
                .Select(print => print.Key)
                .OrderBy(number => Math.Abs(number - edit.Phrase))
                .FirstOrDefault();
            if (moved > 0)
            {
                placed[moved] = (edit, EditState.Fits);
                left.Remove(edit);
            }
        }
        foreach (var edit in left)
        {
            if (prints.ContainsKey(edit.Phrase))
                placed.TryAdd(edit.Phrase, (edit, EditState.NotesChanged));
        }
        return placed;
    }
}
