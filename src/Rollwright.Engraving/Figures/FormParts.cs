using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Notation;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Figures;

/// <summary>A phrase of the form.</summary>
/// <param name="Letter">The same for the same music, with a prime where only the first bar is the same.</param>
/// <param name="Bars">As people count them: "5–6".</param>
/// <param name="Ending">"1." where it is played the first time only; empty where it is always played.</param>
/// <param name="Chords">In order, none twice running.</param>
internal sealed record FormPhrase(string Letter, string Bars, string Ending, string Chords);

/// <summary>A part of the form and how often it is played.</summary>
internal sealed record FormPart(string Name, int Times, ImmutableArray<FormPhrase> Phrases);

/// <summary>Reads the form out of a break.</summary>
internal static class FormParts
{
    public static ImmutableArray<FormPart> Of(Break played, IReadOnlyDictionary<int, string>? given = null)
    {
        var written = BreakReading.Read(played);
        var letters = new Letters(played);
        return
        [
            .. BreakForm
                .Of(played)
                .Select(part => new FormPart(
                    part.Name,
                    part.Times,
                    [
                        .. part.Phrases.Select(phrase =>
                            PhraseOf(
                                played,
                                [.. phrase.Bars.Select(bar => written[bar])],
                                phrase.Ending,
                                full => given?.GetValueOrDefault(phrase.Number) ?? letters.Of(full)
                            )
                        ),
                    ]
                )),
        ];
    }

    private static FormPhrase PhraseOf(
        Break played,
        ImmutableArray<WrittenBar> bars,
        string ending,
        Func<List<WrittenBar>, string> letterOf
    )
    {
        var full = bars.Where(bar => !bar.IsPickup).ToList();
        var numbering = played.Numbering;
        var numbers = full.Select(bar => numbering.AtLineStart(bar.Index)).ToList();
        var chords = new List<string>();
        var inForce = played.ChordsInForce;
        foreach (var chord in full.SelectMany((bar, i) => i == 0 ? inForce.SaidAnew(bar.Index) : bar.Bar.Chords))
        {
            if (chords.Count == 0 || chords[^1] != PrintedNames.Of(chord.Chord))
                chords.Add(PrintedNames.Of(chord.Chord));
        }
        var span = numbers.Count switch
        {
            0 => "",
            1 => numbers[0].ToString(CultureInfo.InvariantCulture),
            _ => $"{numbers[0]}–{numbers[^1]}",
        };
        return new(letterOf(full), span, ending, string.Join(' ', chords));
    }

    // The tune's notes where it is known; a bar is told by what sounds in it and when.
    private sealed class Letters(Break played)
    {
        private readonly List<(string Music, string Opening, string Letter)> known = [];
        private int next;

        public string Of(List<WrittenBar> bars)
        {
            var music = string.Join('|', bars.Select(bar => MusicOf(bar.Index)));
            var opening = bars.Count > 1 ? MusicOf(bars[0].Index) : music;
            foreach (var item in known)
            {
                if (item.Music == music)
                    return item.Letter;
            }
            var cousin = known.Find(item => item.Opening == opening && opening.Length > 0).Letter;
            var letter = cousin is null ? $"{(char)('a' + (next++ % 26))}" : cousin.TrimEnd('′');
            while (known.Exists(item => item.Letter == letter))
                letter += "′";
            known.Add((music, opening, letter));
            return letter;
        }

        private string MusicOf(int bar) =>
            played.Tune is { } tune && bar < tune.Bars.Length
                ? string.Join(' ', tune.Bars[bar].Notes.Select(note => $"{note.At}:{note.Pitch.Midi}"))
                : string.Join(
                    ' ',
                    played.Bars[bar].Strokes.Select(stroke => $"{stroke.At}:{stroke.String}.{stroke.Fret}")
                );
    }
}
