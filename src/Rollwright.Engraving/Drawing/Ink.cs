using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Drawing;

/// <summary>
/// One piece of ink on the page. Layout makes ink, writers print it: whatever a writer cannot print is not ink, so
/// that all three writers show the same page. Coordinates are points (1/72 inch), y downwards.
/// </summary>
/// <param name="Kind">What it is.</param>
/// <param name="Box">The room it takes.</param>
public abstract record Ink(InkKind Kind, Box Box)
{
    /// <summary>The stroke of the break that it shows, where it is a tab number or a note head.</summary>
    public StrokeName? Stroke { get; init; }

    /// <summary>The same ink elsewhere.</summary>
    public abstract Ink Moved(double dx, double dy);
}

/// <summary>Straight lines of one thickness, with flat ends.</summary>
public sealed record Rules(InkKind Kind, ImmutableArray<Segment> Segments, double Thickness)
    : Ink(Kind, Box.Around(Segments.Select(segment => segment.BoxOf(Thickness))))
{
    public override Ink Moved(double dx, double dy) =>
        this with
        {
            Box = Box.Moved(dx, dy),
            Segments = [.. Segments.Select(segment => segment.Moved(dx, dy))],
        };
}

/// <summary>A filled shape: beams, slurs, ties.</summary>
public sealed record Shape(InkKind Kind, Place Start, ImmutableArray<Turn> Turns)
    : Ink(Kind, Box.Around(Turns.Select(turn => turn.ReachFrom(Start))))
{
    public override Ink Moved(double dx, double dy) =>
        this with
        {
            Box = Box.Moved(dx, dy),
            Start = Start.Moved(dx, dy),
            Turns = [.. Turns.Select(turn => turn.Moved(dx, dy))],
        };
}

/// <summary>A sign of the music font.</summary>
/// <param name="X">Of the sign's origin.</param>
/// <param name="Y">Of the sign's origin.</param>
/// <param name="Space">Points of one staff space: the size of the sign.</param>
public sealed record Sign(InkKind Kind, Glyph Glyph, double X, double Y, double Space)
    : Ink(Kind, MusicFont.BoxOf(Glyph, X, Y, Space))
{
    public override Ink Moved(double dx, double dy) => this with { Box = Box.Moved(dx, dy), X = X + dx, Y = Y + dy };
}

/// <summary>A line of words or numbers.</summary>
/// <param name="X">Left, middle or right end, as <paramref name="Anchor"/> says.</param>
/// <param name="Y">The baseline.</param>
/// <param name="Size">Of the font, in points.</param>
public sealed record Words(InkKind Kind, string Text, double X, double Y, double Size, Face Face, Anchor Anchor)
    : Ink(Kind, Lettering.BoxOf(Text, X, Y, Size, Face, Anchor))
{
    public override Ink Moved(double dx, double dy) => this with { Box = Box.Moved(dx, dy), X = X + dx, Y = Y + dy };
}

/// <summary>A picture from a file, as large as its box.</summary>
public sealed record Picture(PictureFile Image, Box Box) : Ink(InkKind.Picture, Box)
{
    public override Ink Moved(double dx, double dy) => this with { Box = Box.Moved(dx, dy) };
}
