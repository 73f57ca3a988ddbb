using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Tunes;

/// <summary>A melody as written: bars with their repeats and endings, and what is said about it.</summary>
public sealed record Tune
{
    /// <summary>"Untitled" where the source gives none; never empty.</summary>
    public string Title { get; init; } = "Untitled";

    public ImmutableArray<string> OtherTitles { get; init; } = [];

    /// <summary>Composer, or "traditional" as the source says; may be empty.</summary>
    public string Composer { get; init; } = "";

    /// <summary>The kind of tune, "reel", "hornpipe", as the source says; may be empty.</summary>
    public string Rhythm { get; init; } = "";

    /// <summary>
    /// How even steps are played: hornpipes of 4/4 and 2/4 long and short, two to one (common practice; abc2midi plays
    /// the same tunes so); null where they are played even, as in reels, and in hornpipes of cut time.
    /// </summary>
    public Swing? Swing =>
        Rhythm.Contains("hornpipe", StringComparison.OrdinalIgnoreCase)
        && (Time == TimeSignature.Common || Time == new TimeSignature(2, 4))
            ? Swing.TwoToOne
            : null;

    /// <summary>The number in its file (X: in ABC); 1 where none is given.</summary>
    public int Number { get; init; } = 1;

    /// <summary>The key at the start.</summary>
    public required Key Key { get; init; }

    /// <summary>Whether the source names the key; otherwise it stands for the notes' spelling only, and is to be found from them.</summary>
    public bool IsKeyGiven { get; init; } = true;

    /// <summary>The metre at the start.</summary>
    public required TimeSignature Time { get; init; }

    /// <summary>The tempo that the source asks for; null where it is silent.</summary>
    public Tempo? Tempo { get; init; }

    /// <summary>At least one.</summary>
    public required ImmutableArray<TuneBar> Bars { get; init; }

    /// <summary>Whether any chord symbol is given.</summary>
    public bool HasChords => Bars.Any(bar => !bar.Chords.IsEmpty);

    /// <summary>Which chord holds where, as the bars are written.</summary>
    public ChordsInForce ChordsInForce => new(Bars.Select(bar => bar.Chords));

    /// <summary>Indices of the bars in order of play.</summary>
    public ImmutableArray<int> Order => Unfolding.Order([.. Bars.Select(bar => bar.Marks)]);

    /// <summary>The bars as people count them.</summary>
    public BarNumbering Numbering => BarNumbering.Of([.. Bars.Select(bar => (bar.Length, bar.Time, bar.Marks))]);

    /// <summary>
    /// The same tune with its repeats written out: every bar as often as it is played, no repeat and no ending left. The
    /// labels of parts stay; a tie over a jump becomes a new note where nothing leads into it.
    /// </summary>
    public Tune WrittenOut()
    {
        var order = Order;
        var bars = ImmutableArray.CreateBuilder<TuneBar>(order.Length);
        var chords = ChordsInForce;
        for (var i = 0; i < order.Length; i++)
        {
            var bar = Bars[order[i]];
            // The chord that goes on from the bar written before has to be said where another bar is played before.
            if (i > 0 && order[i - 1] != order[i] - 1)
                bar = bar with { Chords = chords.SaidAnew(order[i]) };
            var follows = i > 0 && (order[i - 1] == order[i] - 1 || !bar.Marks.EndingStart.IsEmpty);
            var ends = bar.Marks.SectionEnd || bar.Marks.RepeatEnd > 1;
            bars.Add(
                bar with
                {
                    Marks = new() { Part = bar.Marks.Part, SectionEnd = ends || i == order.Length - 1 },
                    Notes = follows
                        ? bar.Notes
                        :
                        [
                            .. bar.Notes.Select(note =>
                                note.At == Fraction.Zero ? note with { TiedFromBefore = false } : note
                            ),
                        ],
                }
            );
        }
        return this with { Bars = bars.MoveToImmutable() };
    }

    /// <summary>The melody in order of play: repeats taken, tied notes joined, times in whole notes from the first bar.</summary>
    public ImmutableArray<PlayedNote> Played()
    {
        var played = ImmutableArray.CreateBuilder<PlayedNote>();
        var start = Fraction.Zero;
        // The bar of the written note before; a long note may have begun bars ago.
        var last = -1;
        foreach (var index in Order)
        {
            foreach (var note in Bars[index].Notes)
            {
                var at = start + note.At;
                // At the start of a repeat the tie holds on the first pass only, when the bar written before was played;
                // an ending is reached from the bar before the first of the endings.
                var joins =
                    note.TiedFromBefore
                    && played.Count > 0
                    && (last >= index - 1 || !Bars[index].Marks.EndingStart.IsEmpty)
                    && last <= index;
                last = index;
                var before = joins ? Sounding(played, note.Pitch.Midi, at) : -1;
                if (before >= 0)
                    played[before] = played[before] with { Length = played[before].Length + note.Length };
                else
                    played.Add(new(at, note.Length, note.Pitch, index));
            }
            start += Bars[index].Length;
        }
        return played.ToImmutable();
    }

    // Of the notes that were struck last, the one of that key that sounds until the time; -1 where there is none.
    private static int Sounding(ImmutableArray<PlayedNote>.Builder played, int key, Fraction until)
    {
        for (var i = played.Count - 1; i >= 0 && played[i].At == played[^1].At; i--)
        {
            if (played[i].Pitch.Midi == key && played[i].End == until)
                return i;
        }
        return -1;
    }
}
