using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Words;

/// <summary>A phrase as a teacher says it.</summary>
/// <param name="Number">The phrase's number, from 1 through the break.</param>
/// <param name="Sentences">In order; each knows the bars and strokes that it describes.</param>
public sealed record PhraseWords(int Number, ImmutableArray<Sentence> Sentences)
{
    /// <summary>All phrases of a break.</summary>
    /// <param name="played">The break.</param>
    /// <param name="order">
    /// Numbers of phrases in the order in which they are told, since a bar may be said to be as one told before; null for the
    /// order of the break.
    /// </param>
    public static ImmutableArray<PhraseWords> Of(Break played, IReadOnlyList<int>? order = null)
    {
        ArgumentNullException.ThrowIfNull(played);
        var phrases = BreakForm.Phrases(played).ToDictionary(phrase => phrase.Number);
        var teller = new PhraseTeller(played);
        return [.. (order ?? [.. phrases.Keys]).Select(number => teller.Tell(phrases[number]))];
    }

    /// <summary>All phrases of a break, each as if no other had been told before.</summary>
    public static ImmutableArray<PhraseWords> EachOf(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var teller = new PhraseTeller(played);
        return [.. BreakForm.Phrases(played).Select(phrase => teller.Afresh().Tell(phrase))];
    }

    /// <summary>A bar or a few that stand by themselves, like a drill: without numbers of bars and names of the tune's notes.</summary>
    public static ImmutableArray<PhraseWords> OfExcerpt(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var teller = new PhraseTeller(played, isExcerpt: true);
        return
        [
            .. BreakForm
                .Phrases(played)
                .Select(teller.Tell)
                .Select(words =>
                    words with
                    {
                        Sentences =
                        [
                            .. words.Sentences.Where(one => one.Kind is not (SentenceKind.Names or SentenceKind.Tune)),
                        ],
                    }
                ),
        ];
    }

    /// <summary>Sentence after sentence, a line for each bar and one for the notes that matter.</summary>
    public string Text(WordForm form) =>
        string.Join(
            '\n',
            Sentences
                .GroupBy(sentence => (sentence.Bars[0], sentence.Kind == SentenceKind.Names))
                .Select(bar =>
                    string.Join(' ', bar.Select(sentence => sentence.In(form)).Where(words => words.Length > 0))
                )
                .Where(line => line.Length > 0)
        );
}
