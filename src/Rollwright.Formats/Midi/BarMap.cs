using System.Collections.Immutable;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Midi;

/// <summary>Bars by the metres of a MIDI file; notes over a bar line are tied.</summary>
internal sealed class BarMap
{
    private readonly List<(Fraction At, TimeSignature Time)> changes = [];
    private readonly Fraction pickup;
    private readonly MessageLog log;

    public BarMap(IEnumerable<MetaEvent> metres, int ticksPerQuarter, Fraction pickup, MessageLog log)
    {
        this.log = log;
        changes.Add((Fraction.Zero, TimeSignature.Common));
        foreach (var one in metres)
        {
            var (beats, power) = (one.Data[0], one.Data[1]);
            if (beats is < 1 or > 64 || power > 6)
            {
                log.NoteOnce(1, 1, "a metre that nobody plays is kept aside");
                continue;
            }
            // Metres change at whole 64ths.
            var at = new Fraction((long)Math.Round(one.At * 16.0 / ticksPerQuarter), 64);
            if (changes[^1].At == at)
                changes.RemoveAt(changes.Count - 1);
            changes.Add((at, new(beats, 1 << power)));
        }
        this.pickup = pickup > Fraction.Zero && pickup < changes[0].Time.Bar ? pickup : Fraction.Zero;
    }

    /// <param name="notes">In order of time.</param>
    /// <param name="key">For the names of the notes.</param>
    public ImmutableArray<TuneBar> Write(List<Quantising.GridNote> notes, Key key)
    {
        var bars = ImmutableArray.CreateBuilder<TuneBar>();
        var sounding = new List<Quantising.GridNote>();
        var next = 0;
        var change = 0;
        for (var start = Fraction.Zero; next < notes.Count || sounding.Count > 0; )
        {
            if (bars.Count == AbcLimits.MostBars)
            {
                log.Error(1, 1, $"more than {AbcLimits.MostBars} bars; the rest is left out", "give the tune alone");
                break;
            }
            while (change + 1 < changes.Count && changes[change + 1].At <= start)
                change++;
            var time = changes[change].Time;
            var length = bars.Count == 0 && pickup > Fraction.Zero ? pickup : time.Bar;
            if (change + 1 < changes.Count)
                length = Fraction.Min(length, changes[change + 1].At - start);
            while (next < notes.Count && notes[next].At < start + length)
                sounding.Add(notes[next++]);
            bars.Add(
                new()
                {
                    Length = length,
                    Time = time,
                    Key = key,
                    Notes = [.. sounding.Select(note => Within(note, start, start + length, key))],
                }
            );
            start += length;
            sounding.RemoveAll(note => note.At + note.Length <= start);
        }
        return bars.ToImmutable();
    }

    private static Note Within(Quantising.GridNote note, Fraction start, Fraction end, Key key)
    {
        var from = Fraction.Max(note.At, start);
        var to = Fraction.Min(note.At + note.Length, end);
        return new(from - start, to - from, Pitch.FromMidi(note.Key, key.Spell(note.Key)), note.At < start);
    }
}
