using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Notation;

/// <summary>A slur from the note before on the same string.</summary>
internal readonly record struct SlurLink(StrokeName From, StrokeName To, SlurKind Kind, bool Rises);

/// <summary>Finds where the slurs of a break come from.</summary>
internal static class SlurLinks
{
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

    /// <summary>The letter that tab writes for it (common practice).</summary>
    public static string Letter(SlurKind kind) =>
        kind switch
        {
            SlurKind.Slide => "s",
            SlurKind.HammerOn => "h",
            SlurKind.PullOff => "p",
            _ => "ch",
        };
}
