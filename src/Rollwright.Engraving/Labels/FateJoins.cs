using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Melody;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Labels;

/// <summary>
/// Joins the notes of the tune's line to the strokes that play them: upright where a note is kept, slanted where it is moved
/// in time, broken where it is moved to another octave; the head of a note that is left out is hollow, and nothing is joined to it.
/// </summary>
internal sealed class FateJoins
{
    private readonly Break played;
    private readonly Sizes sizes;
    private readonly Dictionary<StrokeName, Box> numbers;
    private readonly Dictionary<int, ImmutableArray<NoteFate>> fates = [];

    /// <param name="played">The break, with its tune.</param>
    /// <param name="system">Where its tab numbers (or its heads, where no tab is) stand already.</param>
    /// <param name="sizes">Of what is drawn.</param>
    public FateJoins(Break played, Sheet system, Sizes sizes)
    {
        this.played = played;
        this.sizes = sizes;
        var targets = system.Inks.Where(ink => ink.Stroke is not null).ToLookup(ink => ink.Kind);
        var kind = targets.Contains(InkKind.TabNumber) ? InkKind.TabNumber : InkKind.NoteHead;
        numbers = targets[kind]
            .GroupBy(ink => ink.Stroke!.Value)
            .ToDictionary(group => group.Key, group => group.First().Box);
    }

    /// <summary>The joins so far.</summary>
    public Sheet Sheet { get; } = new();

    /// <summary>Joins a head at its place; it comes back as it is to be drawn.</summary>
    /// <param name="head">The head.</param>
    /// <param name="note">Index of the written bar and of the note in it.</param>
    public Sign Join(Sign head, StrokeName note)
    {
        if (!fates.TryGetValue(note.Bar, out var ofBar))
            fates[note.Bar] = ofBar = TuneFates.Of(played, note.Bar);
        if (note.Index >= ofBar.Length)
            return head;
        var fate = ofBar[note.Index];
        if (fate.Stroke is not { } stroke)
            return head with { Glyph = Glyph.Head(2) };
        if (numbers.TryGetValue(stroke, out var number))
            Sheet.Add(JoinOf(head.Box, number, IsAtItsTime(note, stroke) && fate.Fate == Fate.Moved));
        return head;
    }

    private bool IsAtItsTime(StrokeName note, StrokeName stroke) =>
        played.Tune!.Bars[note.Bar].Notes[note.Index].At == played.Bars[stroke.Bar].Strokes[stroke.Index].At;

    // What is moved to another octave stands right below: its join is broken.
    private Rules JoinOf(Box head, Box number, bool isBroken)
    {
        Place from = new((head.Left + head.Right) / 2, head.Bottom + (0.6 * sizes.Scale)),
            to = new((number.Left + number.Right) / 2, number.Top - (0.8 * sizes.Scale));
        ImmutableArray<(double Start, double End)> pieces = isBroken ? [(0, 0.2), (0.4, 0.6), (0.8, 1)] : [(0, 1)];
        return new(
            InkKind.Join,
            [.. pieces.Select(piece => new Segment(Between(from, to, piece.Start), Between(from, to, piece.End)))],
            0.5 * sizes.Scale
        );
    }

    private static Place Between(Place from, Place to, double share) =>
        new(from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y)));
}
