using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.TestKit;

/// <summary>Small breaks of our own writing, for tests of the rooms that read breaks.</summary>
public static class SampleBreaks
{
    /// <summary>
    /// G position, no capo, 2/2: a pickup, a part A with a repeat and two endings, a part B with a pinch ending; it has
    /// a hammer-on, a pull-off, a slide, a pinch, a rest and a chord change within a bar.
    /// </summary>
    public static Break Small { get; } = Make(0);

    /// <summary>The same under a capo at 2, sounding in A.</summary>
    public static Break SmallCapo2 { get; } = Make(2);

    /// <summary>
    /// One bar from text: a token a step, "3.0T" = string 3 open with the thumb, "*" after it marks melody; "h4", "p0",
    /// "s5" slur to that fret on the string played last; "-" nothing new; "3.0T+1.0M" a pinch.
    /// </summary>
    public static BreakBar Bar(string tokens, BarMarks? marks = null, string chords = "", TimeSignature? time = null)
    {
        var signature = time ?? TimeSignature.Cut;
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        var steps = tokens.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var i = 0; i < steps.Length; i++)
        {
            var length = 1;
            while (i + length < steps.Length && steps[i + length] == "-")
                length++;
            if (steps[i] == "-")
                continue;
            foreach (var token in steps[i].Split('+'))
                strokes.Add(
                    Read(token, signature.Step * i, signature.Step * length, strokes.Count > 0 ? strokes[^1] : null)
                );
        }
        var at = ImmutableArray.CreateBuilder<ChordAt>();
        foreach (var item in chords.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = item.Split('@');
            at.Add(new(signature.Step * (parts.Length > 1 ? int.Parse(parts[1]) : 0), Chord.Parse(parts[0])!.Value));
        }
        return new()
        {
            Length = signature.Step * steps.Length,
            Time = signature,
            Marks = marks ?? BarMarks.None,
            Strokes = strokes.ToImmutable(),
            Chords = at.ToImmutable(),
        };
    }

    private static Stroke Read(string token, Fraction at, Fraction length, Stroke? before)
    {
        var isMelody = token.EndsWith('*');
        token = token.TrimEnd('*');
        if (token[0] is 'h' or 'p' or 's')
        {
            var fret = int.Parse(token[1..]);
            return new()
            {
                At = at,
                Length = length,
                String = before!.String,
                Fret = fret,
                Left = Finger(fret),
                Slur =
                    token[0] == 'h' ? SlurKind.HammerOn
                    : token[0] == 'p' ? SlurKind.PullOff
                    : SlurKind.Slide,
                IsMelody = isMelody,
            };
        }
        var plucked = int.Parse(token[2..^1]);
        return new()
        {
            At = at,
            Length = length,
            String = token[0] - '0',
            Fret = plucked,
            Left = Finger(plucked),
            Right = Enum.Parse<RightFinger>(token[^1..]),
            IsMelody = isMelody,
        };
    }

    private static int? Finger(int fret) => fret == 0 ? null : Math.Min(4, fret);

    private static Break Make(int capo) =>
        new()
        {
            Title = "The Kettle Path",
            Composer = "Rollwright sample",
            Setting = new(TuningTable.OpenG, capo, new Key(new PitchName(Letter.G)), -12),
            Time = TimeSignature.Cut,
            Tempo = new(new Fraction(1, 2), 80),
            Bars =
            [
                Bar("4.0T 3.0I", new() { Part = "A" }),
                Bar("3.0T* 2.0I 5.0T 1.0M 3.2T* h4 5.0T 1.0M*", new() { RepeatStart = true }, "G"),
                Bar("2.1T* 3.0I 1.2M 5.0T 2.1I* p0 5.0T 1.0M", null, "C G@4"),
                Bar("4.0T* 3.2I 2.1T* 1.0M 5.0T 2.1I 1.0M 3.2I", null, "D7"),
                Bar(
                    "3.0T* 1.0M 5.0T 3.0I 1.0M 4.0T 3.0I 1.0M",
                    new()
                    {
                        EndingStart = [1],
                        EndingStop = true,
                        RepeatEnd = 2,
                    },
                    "G"
                ),
                Bar(
                    "3.0T* 1.0M 5.0T 3.0I 3.0T+1.0M - - -",
                    new()
                    {
                        EndingStart = [2],
                        EndingStop = true,
                        SectionEnd = true,
                    },
                    "G"
                ),
                Bar("1.5M* 5.0T 2.5I 1.5M* 3.2T s4 5.0T 2.0I", new() { RepeatStart = true, Part = "B" }, "G"),
                Bar("3.0T*+1.0M - 5.0T 2.0I 3.0T+1.0M - - -", new() { RepeatEnd = 2 }, "D7 G@2"),
            ],
            Spans =
            [
                new(SpanKind.Roll, "alternating thumb", 1, Fraction.Zero, new(1)),
                new(SpanKind.Tag, "closing", 7, Fraction.Zero, new(1)),
            ],
        };
}
