using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Sound.Playing;

namespace Rollwright.Sound.Band;

/// <summary>Which chord sounds when, in order of play; a chord lasts until the next, over bar lines too.</summary>
internal sealed class ChordTrack
{
    private readonly BarNumbering numbering;
    private readonly ChordsInForce chords;
    private readonly Chord? last;

    public ChordTrack(Break played, Timeline timeline)
    {
        numbering = played.Numbering;
        Capo = played.Setting.Capo;
        chords = new(played.Order.Select(bar => played.Bars[bar].Chords));
        last = timeline.Bars.LastOrDefault(bar => !bar.IsCount) is { Pass: >= 0 } end ? At(end, end.Time.Bar) : null;
    }

    /// <summary>Semitones by which a chord sounds higher than it is named here.</summary>
    public int Capo { get; }

    /// <summary>
    /// The chord at a time of a bar, in whole notes from where the full bar begins; null before the first. At the
    /// beginning of a later pass the last chord of the one before still sounds.
    /// </summary>
    public Chord? At(TimedBar bar, Fraction at)
    {
        if (bar.IsCount)
            return null;
        return chords.At(bar.Place, at - numbering[bar.Bar].Missing) ?? (bar.Pass > 0 ? last : null);
    }
}
