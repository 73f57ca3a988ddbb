using System.Collections.Immutable;

namespace Rollwright.Engraving.Drawing;

/// <summary>Pages ready to be printed, and where the music stands on them.</summary>
/// <param name="Title">Of the tune, for the head of files.</param>
/// <param name="Author">As the break says; may be empty.</param>
/// <param name="Words">One sentence that says what the page shows, for those who do not see it.</param>
/// <param name="Pages">At least one.</param>
/// <param name="Strokes">Every stroke in order of the page.</param>
/// <param name="Bars">Every written bar in order.</param>
public sealed record Layout(
    string Title,
    string Author,
    string Words,
    ImmutableArray<LaidPage> Pages,
    ImmutableArray<StrokePlace> Strokes,
    ImmutableArray<BarPlace> Bars
);

/// <summary>One page; width and height in points.</summary>
public sealed record LaidPage(double Width, double Height, ImmutableArray<Ink> Inks);
