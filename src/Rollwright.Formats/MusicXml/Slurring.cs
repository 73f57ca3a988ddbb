using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Formats.MusicXml;

/// <summary>Where slurs start: MusicXML marks both notes, the break only the second.</summary>
internal sealed class Slurring
{
    private readonly Dictionary<(int Bar, Stroke Stroke), SlurKind> starts = new(new ByPlace());

    public Slurring(Break written)
    {
        foreach (var link in SlurLinks.Of(written))
            starts[(link.From.Bar, written.Bars[link.From.Bar].Strokes[link.From.Index])] = link.Kind;
    }

    /// <summary>The slur that leads on from a stroke; null where none does.</summary>
    public SlurKind? StartAt(int bar, Stroke stroke) => starts.TryGetValue((bar, stroke), out var kind) ? kind : null;

    // Two equal strokes of one bar are still two notes.
    private sealed class ByPlace : IEqualityComparer<(int Bar, Stroke Stroke)>
    {
        public bool Equals((int Bar, Stroke Stroke) x, (int Bar, Stroke Stroke) y) =>
            x.Bar == y.Bar && ReferenceEquals(x.Stroke, y.Stroke);

        public int GetHashCode((int Bar, Stroke Stroke) obj) =>
            System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(obj.Stroke);
    }
}
