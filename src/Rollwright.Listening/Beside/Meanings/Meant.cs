using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Beside.Meanings;

/// <summary>What was meant to be played: the notes of a break in order of play, repeats taken, and how they are parted.</summary>
public sealed record Meant
{
    /// <summary>By time; notes struck together by string.</summary>
    public required ImmutableArray<MeantNote> Notes { get; init; }

    /// <summary>In order of play.</summary>
    public required ImmutableArray<MeantBar> Bars { get; init; }

    /// <summary>In order of play; together they hold every bar once.</summary>
    public required ImmutableArray<MeantPhrase> Phrases { get; init; }

    /// <summary>Seconds that a whole note lasts at the tempo that is marked; more than 0.</summary>
    public required double WholeNote { get; init; }

    /// <summary>The notes of a break where its swing puts them.</summary>
    public static Meant Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var swung = SwungTime.Of(played);
        var bars = BarsOf(played);
        var notes = ImmutableArray.CreateBuilder<MeantNote>();
        for (var i = 0; i < bars.Bars.Length; i++)
        {
            var written = bars.Bars[i].Written;
            var strokes = played.Bars[written].Strokes;
            for (var index = 0; index < strokes.Length; index++)
            {
                var (stroke, at) = (strokes[index], bars.Starts[i] + strokes[index].At);
                notes.Add(
                    new(notes.Count, swung.At(at).ToDouble(), played.KeyOf(stroke), i)
                    {
                        IsSlurred = stroke.Slur is not null,
                        Name = new(written, index),
                    }
                );
            }
        }
        return new()
        {
            Notes = notes.ToImmutable(),
            Bars = bars.Bars,
            Phrases = bars.Phrases,
            WholeNote = played.Tempo.SecondsPerWhole,
        };
    }

    /// <summary>The same, sounding so many semitones higher.</summary>
    public Meant Higher(int semitones) =>
        this with
        {
            Notes = [.. Notes.Select(note => note with { Pitch = note.Pitch + semitones })],
        };

    private static (
        ImmutableArray<MeantBar> Bars,
        ImmutableArray<Fraction> Starts,
        ImmutableArray<MeantPhrase> Phrases
    ) BarsOf(Break played)
    {
        var parts = BreakForm.Of(played);
        var openings = parts.Select(part => part.Phrases[0].Number).ToHashSet();
        var ofBar = parts
            .SelectMany(part => part.Phrases)
            .SelectMany(phrase => phrase.Bars.Select(bar => (bar, phrase)))
            .ToDictionary(one => one.bar, one => one.phrase);
        var bars = ImmutableArray.CreateBuilder<MeantBar>();
        var starts = ImmutableArray.CreateBuilder<Fraction>();
        var phrases = ImmutableArray.CreateBuilder<MeantPhrase>();
        var passes = new Dictionary<int, int>();
        var start = Fraction.Zero;
        foreach (var written in played.Order)
        {
            var phrase = ofBar[written];
            var goesOn =
                phrases.Count > 0
                && phrases[^1].Number == phrase.Number
                && written > bars[phrases[^1].Bars[^1]].Written;
            if (goesOn)
                phrases[^1] = phrases[^1] with { Bars = phrases[^1].Bars.Add(bars.Count) };
            else
                phrases.Add(
                    new(
                        phrase.Number,
                        passes[phrase.Number] = passes.GetValueOrDefault(phrase.Number) + 1,
                        [bars.Count]
                    )
                    {
                        OpensPart = openings.Contains(phrase.Number),
                    }
                );
            bars.Add(
                new(start.ToDouble(), played.Bars[written].Length.ToDouble(), written, played.Numbering[written].Name)
            );
            starts.Add(start);
            start += played.Bars[written].Length;
        }
        return (bars.ToImmutable(), starts.ToImmutable(), phrases.ToImmutable());
    }
}
