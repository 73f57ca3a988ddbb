using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Breaks;

/// <summary>A slur and the note it starts from.</summary>
/// <param name="From">The stroke before on the same string, as written.</param>
/// <param name="To">The slurred stroke.</param>
/// <param name="Kind">How it is slurred.</param>
/// <param name="Rises">To a higher fret.</param>
public readonly record struct SlurLink(StrokeName From, StrokeName To, SlurKind Kind, bool Rises);

/// <summary>Finds where the slurs of a break come from.</summary>
public static class SlurLinks
{
    /// <summary>All links in written order; a slur that nothing sounds before has none.</summary>
    public static ImmutableArray<SlurLink> Of(Break played)
    {
        var links = ImmutableArray.CreateBuilder<SlurLink>();
        var last = new Dictionary<int, (StrokeName Name, int Fret)>();
        for (var bar = 0; bar < played.Bars.Length; bar++)
        {
            var strokes = played.Bars[bar].Strokes;
            for (var i = 0; i < strokes.Length; i++)
            {
                var stroke = strokes[i];
                var name = new StrokeName(bar, i);
                if (stroke.Slur is { } kind && last.TryGetValue(stroke.String, out var from))
                    links.Add(new(from.Name, name, kind, stroke.Fret > from.Fret));
                last[stroke.String] = (name, stroke.Fret);
            }
        }
        return links.ToImmutable();
    }
}
