using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Banjo.Breaks;

/// <summary>
/// A break: everything that is played, by both hands, as written (repeats and endings are marks of the bars). All
/// rooms that write, draw, sound or teach read this value and nothing else. Edits make new breaks.
/// </summary>
public sealed record Break
{
    public required string Title { get; init; }

    /// <summary>Who composed the tune, as its source says; may be empty.</summary>
    public string Composer { get; init; } = "";

    public required Setting Setting { get; init; }

    public required TimeSignature Time { get; init; }

    public required Tempo Tempo { get; init; }

    /// <summary>How pairs of steps are played; null where they are even. The written page stays even.</summary>
    public Swing? Swing { get; init; }

    /// <summary>At least one.</summary>
    public required ImmutableArray<BreakBar> Bars { get; init; }

    /// <summary>Rolls and licks by name, in order of time.</summary>
    public ImmutableArray<Span> Spans { get; init; } = [];

    /// <summary>
    /// The tune itself, as written at its own pitch, bar for bar the same as <see cref="Bars"/>; null where a break was
    /// typed or read from a file that does not hold it. Its sounding pitch here is moved by <see cref="Setting.Shift"/>.
    /// </summary>
    public Tune? Tune { get; init; }

    /// <summary>Indices of the written bars in order of play.</summary>
    public ImmutableArray<int> Order => Unfolding.Order([.. Bars.Select(bar => bar.Marks)]);

    /// <summary>The bars as people count them.</summary>
    public BarNumbering Numbering => BarNumbering.Of([.. Bars.Select(bar => (bar.Length, bar.Time, bar.Marks))]);

    /// <summary>Every stroke in order of play, repeats taken.</summary>
    public ImmutableArray<PlayedStroke> Played()
    {
        var played = ImmutableArray.CreateBuilder<PlayedStroke>();
        var start = Fraction.Zero;
        foreach (var index in Order)
        {
            for (var i = 0; i < Bars[index].Strokes.Length; i++)
            {
                var stroke = Bars[index].Strokes[i];
                played.Add(new(start + stroke.At, stroke, index, i));
            }
            start += Bars[index].Length;
        }
        return played.ToImmutable();
    }

    /// <summary>
    /// The same break with its repeats written out: every bar as often as it is played, no repeat and no ending left. Bars of
    /// it are those of <see cref="Order"/>, one for one.
    /// </summary>
    public Break WrittenOut()
    {
        var order = Order;
        var spans = Spans.ToLookup(span => span.Bar);
        var chords = ChordsInForce;
        return this with
        {
            Bars = [.. order.Select((bar, i) => BarOf(bar, i))],
            Spans = [.. order.SelectMany((bar, i) => spans[bar].Select(span => span with { Bar = i }))],
            Tune = Tune?.WrittenOut(),
        };

        BreakBar BarOf(int index, int place)
        {
            var bar = Bars[index];
            // The chord that goes on from the bar written before has to be said where another bar is played before.
            if (place > 0 && order[place - 1] != index - 1)
                bar = bar with { Chords = chords.SaidAnew(index) };
            var ends = bar.Marks.SectionEnd || bar.Marks.RepeatEnd > 1 || place == order.Length - 1;
            return bar with
            {
                Marks = new() { Part = bar.Marks.Part, SectionEnd = ends },
            };
        }
    }

    /// <summary>Which chord holds where, as the bars are written.</summary>
    public ChordsInForce ChordsInForce => new(Bars.Select(bar => bar.Chords));

    /// <summary>MIDI key that a stroke sounds.</summary>
    public int KeyOf(Stroke stroke) => Setting.SoundingKeyOf(stroke.String, stroke.Fret);
}
