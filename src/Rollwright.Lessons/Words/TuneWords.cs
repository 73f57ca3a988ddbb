using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Melody;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>Says where the tune is among the notes, which chords and licks stand in a bar, and the notes that matter.</summary>
internal sealed class TuneWords(Break played, Counting counting)
{
    private readonly ChordsInForce inForce = played.ChordsInForce;

    /// <summary>"G, then C from 3": the chord in force at the start too; empty where none is known.</summary>
    public string Chords(ImmutableArray<int> bars)
    {
        var words = new List<string>();
        if (inForce.At(bars[0], Fraction.Zero) is { } before)
            words.Add($"{before}");
        foreach (var bar in bars)
        {
            foreach (var chord in played.Bars[bar].Chords)
            {
                if (bar == bars[0] && chord.At == Fraction.Zero)
                    continue;
                var from = counting.Of(bar, chord.At);
                words.Add(
                    bars.Length == 1
                        ? $"{chord.Chord} from {from}"
                        : $"{chord.Chord} from {from} of {counting.NameOf(bar)}"
                );
            }
        }
        return string.Join(", then ", words);
    }

    /// <summary>" The closing lick 'slide and pinch', from 1."; empty where none starts in the bar.</summary>
    public string Lick(int bar) =>
        string.Concat(
            played
                .Spans.Where(span => span.Bar == bar && span.Kind is SpanKind.Lick or SpanKind.Tag)
                .Select(span =>
                    $" {(span.Kind == SpanKind.Tag ? "The closing lick" : "The lick")} '{span.Name}', from {counting.Of(bar, span.At)}."
                )
        );

    /// <summary>"Closing lick 'slide and pinch'." Empty where none starts in the bar.</summary>
    public string LickName(int bar) =>
        string.Join(
            " ",
            played
                .Spans.Where(span => span.Bar == bar && span.Kind is SpanKind.Lick or SpanKind.Tag)
                .Select(span => $"{(span.Kind == SpanKind.Tag ? "Closing lick" : "Lick")} '{span.Name}'.")
        );

    /// <summary>Where the tune's notes are in a bar; null where it has none there.</summary>
    public Sentence? Where(int bar)
    {
        var strokes = played.Bars[bar].Strokes;
        List<int> kept = [.. Enumerable.Range(0, strokes.Length).Where(i => strokes[i].IsMelody)];
        var moved = Moved(bar).Where(one => !kept.Contains(one.Index)).ToList();
        if (kept.Count + moved.Count == 0)
            return null;
        // A note in another octave stands where the tune has it.
        List<int> own = [.. kept.Concat(moved.Where(one => one.IsInPlace).Select(one => one.Index)).Order()];
        var at = Times(bar, own);
        var placed =
            own.Count == strokes.Length ? "every note is the tune's"
            : own.Count == 0 ? null
            : Exceptions(bar, own) is { } others ? $"every note is the tune's but for {others}"
            : $"the tune is on {at}";
        IEnumerable<string> elsewhere = moved.Select(one => one.Words);
        var words = string.Join("; ", placed is null ? elsewhere : elsewhere.Prepend(placed));
        var brief = own.Count == 0 ? "" : $"Tune: {(own.Count == strokes.Length ? "all" : at)}.";
        return new(
            SentenceKind.Tune,
            brief,
            char.ToUpperInvariant(words[0]) + words[1..] + ".",
            [.. own.Union(moved.Select(one => one.Index)).Order().Select(index => new StrokeName(bar, index))],
            [bar]
        )
        {
            Brief = brief,
        };
    }

    // "1, 1-and and 2"; in a pinch the string too, where only one of it is meant.
    private string Times(int bar, List<int> own)
    {
        var strokes = played.Bars[bar].Strokes;
        return Counting.Listed([.. Moments(bar).Where(moment => moment.Any(own.Contains)).Select(Said)]);

        string Said(IGrouping<Fraction, int> moment)
        {
            var count = counting.Of(bar, moment.Key);
            return moment.All(own.Contains)
                ? count
                : $"{count} (string {Counting.Listed([.. moment.Where(own.Contains).Select(i => $"{strokes[i].String}")])})";
        }
    }

    // "the one on 2-and", where that is shorter than to list the tune's notes; null where it is not.
    private string? Exceptions(int bar, List<int> own)
    {
        var moments = Moments(bar);
        var others = moments.Where(moment => !moment.Any(own.Contains)).ToList();
        var isClear = moments.TrueForAll(moment => moment.All(own.Contains) || !moment.Any(own.Contains));
        return isClear && others.Count is 1 or 2 && moments.Count > 3 * others.Count
            ? $"the {(others.Count == 1 ? "one" : "two")} on {Counting.Listed([.. others.Select(moment => counting.Of(bar, moment.Key))])}"
            : null;
    }

    private List<IGrouping<Fraction, int>> Moments(int bar) =>
        [.. Enumerable.Range(0, played.Bars[bar].Strokes.Length).GroupBy(i => played.Bars[bar].Strokes[i].At)];

    // Notes of the tune that are played early or late, or in another octave.
    private IEnumerable<(int Index, bool IsInPlace, string Words)> Moved(int bar)
    {
        if (played.Tune is not { } tune)
            yield break;
        foreach (var (fate, note) in TuneFates.Of(played, bar).Zip(tune.Bars[bar].Notes))
        {
            if (fate is not { Fate: Fate.Moved, Stroke: { } name } || note.TiedFromBefore)
                continue;
            var stroke = played.Bars[bar].Strokes[name.Index];
            var way =
                stroke.At < note.At ? $"comes early, on {counting.Of(bar, stroke.At)}"
                : stroke.At > note.At ? $"comes late, on {counting.Of(bar, stroke.At)}"
                : played.KeyOf(stroke) > note.Pitch.Midi + played.Setting.Shift ? "an octave high"
                : "an octave low";
            yield return (
                name.Index,
                stroke.At == note.At,
                stroke.At == note.At
                    ? $"on {counting.Of(bar, note.At)} it is {way}"
                    : $"the tune's note of {counting.Of(bar, note.At)} {way}"
            );
        }
    }

    /// <summary>The first and the last note of a phrase, and the notes on which the chord changes, by name.</summary>
    public IEnumerable<Sentence> Names(Phrase phrase)
    {
        var strokes = phrase
            .Bars.SelectMany(bar =>
                played.Bars[bar].Strokes.Select((stroke, i) => (Bar: bar, Index: i, Stroke: stroke))
            )
            .ToList();
        var tune = strokes.Where(one => one.Stroke.IsMelody).ToList();
        if (tune.Count < 2)
            yield break;
        var (first, last) = (tune[0], tune[^1]);
        var changes = tune.Where(one => one != first && one != last)
            .SelectMany(one =>
                played
                    .Bars[one.Bar]
                    .Chords.Where(chord => chord.At == one.Stroke.At)
                    .Select(chord => $"with the chord {chord.Chord} comes {Named(one)}")
            );
        var words =
            $"Notes to listen for: {string.Join("; ", changes.Prepend($"the tune of the phrase starts with {Named(first)}").Append($"it ends with {Named(last)}"))}";
        yield return new(
            SentenceKind.Names,
            "",
            words + ".",
            [new(first.Bar, first.Index), new(last.Bar, last.Index)],
            [last.Bar]
        );
    }

    private string Named((int Bar, int Index, Stroke Stroke) one) =>
        $"{Name(one.Stroke)} on {counting.Of(one.Bar, one.Stroke.At)} of {counting.NameOf(one.Bar)} (string {one.Stroke.String}, {HandNames.Fret(one.Stroke.Fret)})";

    // As the hands know it: without the capo, like the chords.
    private string Name(Stroke stroke) =>
        played.Setting.Position.Spell(played.KeyOf(stroke) - played.Setting.Capo).ToString();
}
