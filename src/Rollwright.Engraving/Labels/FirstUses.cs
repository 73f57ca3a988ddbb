using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Chords;

namespace Rollwright.Engraving.Labels;

/// <summary>Diagrams over the names of chords that have not been shown yet.</summary>
internal sealed class FirstUses
{
    private readonly Break played;
    private readonly Dictionary<string, Chord> waiting = new(StringComparer.Ordinal);

    public FirstUses(Break played)
    {
        this.played = played;
        foreach (var chord in played.Bars.SelectMany(bar => bar.Chords))
            waiting.TryAdd(PrintedNames.Of(chord.Chord), chord.Chord);
    }

    public void Draw(Sheet sheet, double lowest, Sizes sizes)
    {
        var diagrams = new List<Sheet>();
        var free = double.NegativeInfinity;
        foreach (var name in sheet.Inks.OfType<Words>().Where(ink => ink.Kind == InkKind.Chord).ToList())
        {
            if (
                !waiting.Remove(name.Text, out var chord)
                || ShapeChoice.For(played.Setting.Tuning, chord) is not { } shape
            )
                continue;
            var diagram = ChordDiagram.Draw(shape, Math.Max(name.Box.Left, free), sizes);
            free = diagram.Box.Right + (5 * sizes.Scale);
            diagrams.Add(diagram);
        }
        if (diagrams.Count == 0)
            return;
        var bottom = diagrams.Max(diagram => diagram.Box.Bottom);
        var top = diagrams.Min(diagram =>
            sheet.TopOver(diagram.Box.Left - sizes.Clear, diagram.Box.Right + sizes.Clear, lowest)
        );
        foreach (var diagram in diagrams)
            sheet.Add(diagram, top - bottom - (3 * sizes.Scale));
    }
}
