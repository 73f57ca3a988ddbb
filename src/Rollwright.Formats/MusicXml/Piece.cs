using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml;

/// <summary>One written sign of a bar: notes struck together, the tied rest of them, or a rest.</summary>
internal sealed record Piece(Fraction At, Fraction Length, NoteValue Value, ImmutableArray<Stroke> Strokes)
{
    /// <summary>Whether the sign before is tied to this one.</summary>
    public bool TieStop { get; init; }

    /// <summary>Whether this sign is tied to the next one.</summary>
    public bool TieStart { get; init; }

    public ImmutableArray<string> Beams { get; init; } = [];

    public bool TupletStart { get; init; }

    public bool TupletStop { get; init; }

    public bool IsRest => Strokes.IsEmpty;

    /// <summary>The signs of a bar; their lengths add up to the bar's exactly.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="offset">Whole notes of the full bar that lie before it, for a pickup.</param>
    public static List<Piece> Of(BreakBar bar, Fraction offset)
    {
        var pieces = new List<Piece>();
        var now = Fraction.Zero;
        var groups = bar
            .Strokes.Where(stroke => stroke.At < bar.Length)
            .GroupBy(stroke => stroke.At)
            .OrderBy(g => g.Key);
        var times = groups
            .Select(group => (At: group.Key, Strokes: group.OrderBy(s => s.String).ToImmutableArray()))
            .ToList();
        for (var i = 0; i < times.Count; i++)
        {
            var (at, strokes) = times[i];
            var next = i + 1 < times.Count ? times[i + 1].At : bar.Length;
            var length = Fraction.Min(strokes.Max(stroke => stroke.Length), next - at);
            Add(pieces, now, at - now, [], offset, bar.Time.Beat);
            Add(pieces, at, length, strokes, offset, bar.Time.Beat);
            now = at + length;
        }
        Add(pieces, now, bar.Length - now, [], offset, bar.Time.Beat);
        Tuplets(pieces);
        Beaming.Apply(pieces, bar.Time, offset);
        return pieces;
    }

    private static void Add(
        List<Piece> pieces,
        Fraction at,
        Fraction length,
        ImmutableArray<Stroke> strokes,
        Fraction offset,
        Fraction beat
    )
    {
        if (length <= Fraction.Zero)
            return;
        var parts = NoteValue.Split(at + offset, length, beat);
        for (var i = 0; i < parts.Count; i++)
        {
            pieces.Add(
                new(at, parts[i].Length, parts[i].Value, strokes)
                {
                    TieStop = !strokes.IsEmpty && i > 0,
                    TieStart = !strokes.IsEmpty && i + 1 < parts.Count,
                }
            );
            at += parts[i].Length;
        }
    }

    // A tuplet's bracket runs until its signs add up to a plain length again.
    private static void Tuplets(List<Piece> pieces)
    {
        var start = -1;
        var sum = Fraction.Zero;
        for (var i = 0; i < pieces.Count; i++)
        {
            if (!pieces[i].Value.IsTuplet)
            {
                start = -1;
                continue;
            }
            if (start < 0)
                (start, sum) = (i, Fraction.Zero);
            sum += pieces[i].Length;
            if ((sum.Denominator & (sum.Denominator - 1)) != 0)
                continue;
            pieces[start] = pieces[start] with { TupletStart = true };
            pieces[i] = pieces[i] with { TupletStop = true };
            start = -1;
        }
    }
}
