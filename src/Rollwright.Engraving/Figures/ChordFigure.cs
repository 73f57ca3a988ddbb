using Rollwright.Banjo.Tunings;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Chords;

namespace Rollwright.Engraving.Figures;

/// <summary>Diagrams of chords side by side as a figure.</summary>
public static class ChordFigure
{
    /// <exception cref="ArgumentException">A chord has no shape in the tuning, or the width is too small.</exception>
    public static Layout Lay(Tuning tuning, IReadOnlyList<Chord> chords, FigureStyle style)
    {
        Figure.Check(style);
        var sizes = new Sizes(1.6);
        var all = new Sheet();
        var nameSize = sizes.Chord / sizes.Scale * 1.3;
        double x = 0,
            y = 0;
        foreach (var chord in chords)
        {
            var shape =
                ShapeChoice.For(tuning, chord)
                ?? throw new ArgumentException($"No shape of {chord} is known in {tuning.Name}.", nameof(chords));
            var name = PrintedNames.Of(chord);
            var width = Math.Max(ChordDiagram.WidthOf(sizes), Lettering.WidthOf(name, nameSize, Face.Bold));
            var diagram = new Sheet();
            diagram.Add(ChordDiagram.Draw(shape, x + ((width - ChordDiagram.WidthOf(sizes)) / 2), sizes), 0);
            diagram.Add(
                new Words(InkKind.Chord, name, x + (width / 2), -6.2 * sizes.Scale, nameSize, Face.Bold, Anchor.Middle)
            );
            if (x > 0 && diagram.Box.Right > style.Width - (4 * Figure.Edge))
            {
                diagram = diagram.Moved(-x);
                (x, y) = (0, all.Box.Bottom + (18 * sizes.Scale));
            }
            all.Add(diagram, y);
            x += width + (12 * sizes.Scale);
        }
        var names = string.Join(", ", chords.Select(chord => $"{chord}"));
        return Figure.Of(all, names, $"Chord diagrams: {names}, {tuning.Name}. {style.Caption}".TrimEnd(), style);
    }
}
