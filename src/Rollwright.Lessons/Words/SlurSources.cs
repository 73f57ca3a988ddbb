using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>From which fret each slur of a break starts.</summary>
internal sealed class SlurSources
{
    private readonly Dictionary<(int Bar, Fraction At, int String), int> frets = [];

    public SlurSources(Break played)
    {
        foreach (var link in SlurLinks.Of(played))
        {
            var (from, to) = (Stroke(link.From), Stroke(link.To));
            frets[(link.To.Bar, to.At, to.String)] = from.Fret;
        }

        Stroke Stroke(StrokeName name) => played.Bars[name.Bar].Strokes[name.Index];
    }

    /// <summary>The fret that sounds before a slur on its string; null where nothing does.</summary>
    public int? FretBefore(int bar, Stroke slur) =>
        frets.TryGetValue((bar, slur.At, slur.String), out var fret) ? fret : null;
}
