using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Window = Rollwright.Arranging.Chording.HarmonyRows.Window;

namespace Rollwright.Arranging.Chording;

/// <summary>Lays a tune out in beats, each with all that speaks for its chord.</summary>
internal sealed class BeatLine
{
    private readonly Tune tune;
    private readonly BarTree tree;
    private readonly PhrasePlaces places;
    private readonly double[][] inBar;
    private readonly double[] inTune = new double[12];
    private readonly int tonic;
    private readonly int dense;

    private BeatLine(Tune tune)
    {
        this.tune = tune;
        tree = BarTree.Of(tune.Order, tune.Bars.Length);
        places = PhrasePlaces.Of(tune, tree);
        tonic = tune.Key.Tonic.PitchClass;
        inBar = [.. tune.Bars.Select(bar => Shares(bar, Fraction.Zero, bar.Length))];
        var total = 0.0;
        foreach (var bar in inBar)
        {
            for (var pc = 0; pc < 12; pc++)
            {
                inTune[pc] += bar[pc];
                total += bar[pc];
            }
        }
        for (var pc = 0; pc < 12; pc++)
            inTune[pc] /= Math.Max(total, 1e-9);
        var notes = tune.Bars.Sum(bar => (double)bar.Notes.Length);
        var beats = tune.Bars.Sum(bar => (bar.Length / Beats.Length(bar.Time)).ToDouble());
        dense = (int)Math.Clamp((notes / beats) * 2 - 1, 0, 4);
    }

    public static ImmutableArray<Beat> Of(Tune tune) => new BeatLine(tune).Lay();

    private ImmutableArray<Beat> Lay()
    {
        var beats = ImmutableArray.CreateBuilder<Beat>();
        var last = new int[tune.Bars.Length];
        var like = new Dictionary<string, int>();
        for (var b = 0; b < tune.Bars.Length; b++)
        {
            var bar = tune.Bars[b];
            var before = tree.Parent[b] < 0 ? -1 : last[tree.Parent[b]];
            var melody = Melody(bar);
            foreach (var (at, length) in Beats.Of(bar))
            {
                var key = $"{melody}@{at}";
                if (!like.TryGetValue(key, out var number))
                    like[key] = number = like.Count;
                beats.Add(Make(b, at, length, before, number));
                before = beats.Count - 1;
            }
            last[b] = before;
        }
        return beats.ToImmutable();
    }

    private Beat Make(int index, Fraction at, Fraction length, int before, int like)
    {
        var bar = tune.Bars[index];
        var beatLength = Beats.Length(bar.Time);
        var perBar = (int)Math.Ceiling((bar.Time.Bar / beatLength).ToDouble());
        var shift = places.IsPickup[index] ? bar.Time.Bar - bar.Length : Fraction.Zero;
        var place = (int)((at + shift) / beatLength).Floor();
        var half = perBar > 1 && 2 * place >= perBar ? 1 : 0;
        var kind = place == 0 ? 0 : 2 * place == perBar ? 1 : 2;
        var metre = Metre(bar.Time, perBar);
        var third = ThirdOf(bar.Key.Mode);
        var ownTonic = Mod(bar.Key.Tonic.PitchClass - tonic);
        var said = ImmutableArray.CreateBuilder<(int, int, double)>();
        said.Add((HarmonyRows.Always(third), ownTonic, 1));
        said.Add((HarmonyRows.Phrase(third, places.FromStart[index], half), ownTonic, 1));
        said.Add((HarmonyRows.Metre(third, metre), ownTonic, 1));
        var changes = ImmutableArray.CreateBuilder<int>();
        changes.Add(HarmonyRows.ChangeMetre(metre, place));
        changes.Add(HarmonyRows.ChangePhrase(places.FromStart[index], kind));
        changes.Add(HarmonyRows.ChangeDense(dense, kind));
        if (places.ToEnd[index] < 4)
        {
            said.Add((HarmonyRows.End(third, places.ToEnd[index], half), ownTonic, 1));
            changes.Add(HarmonyRows.ChangeEnd(places.ToEnd[index], kind));
            if (places.ToEnd[index] == 0 && index == tune.Order[^1])
                said.Add((HarmonyRows.Last(third, half), ownTonic, 1));
        }
        if (PitchAt(bar, at) is { } first)
        {
            said.Add((HarmonyRows.Heard(third, Window.AtBeat, Mod(first - ownTonic)), ownTonic, 1));
            said.Add((HarmonyRows.Seen(kind == 0 ? Window.AtBarStart : kind == 1 ? Window.AtHalfBar : Window.AtBeat), first, 1));
        }
        if (PitchAt(bar, at + beatLength) is { } next)
            said.Add((HarmonyRows.Seen(Window.NextBeat), next, 1));
        if (at >= beatLength && PitchAt(bar, at - beatLength) is { } previous)
            said.Add((HarmonyRows.Seen(Window.BeatBefore), previous, 1));
        Hear(Window.WithinBeat, Shares(bar, at, length), third, ownTonic, said);
        Hear(Window.InBar, inBar[index], third, ownTonic, said);
        Hear(Window.InTune, inTune, third, ownTonic, said);
        if (index + 1 < inBar.Length)
            Hear(Window.NextBar, inBar[index + 1], third, ownTonic, said);
        if (tree.Parent[index] >= 0)
            Hear(Window.BarBefore, inBar[tree.Parent[index]], third, ownTonic, said);
        var halfBar = bar.Time.Bar * new Fraction(1, 2);
        var middle = Fraction.Max(Fraction.Zero, halfBar - shift);
        var (from, to) = half == 0
            ? (Fraction.Zero, Fraction.Min(bar.Length, Fraction.Max(middle, at + length)))
            : (Fraction.Min(middle, at), bar.Length);
        Hear(Window.HalfBar, Shares(bar, from, to - from), third, ownTonic, said);
        return new(index, at)
        {
            Before = before,
            Tonic = ownTonic,
            Key = third,
            IsEnd = places.ToEnd[index] == 0,
            Said = said.ToImmutable(),
            Changes = changes.ToImmutable(),
            Like = like,
            Place = kind,
        };
    }

    private static void Hear(
        Window window,
        double[] shares,
        int third,
        int ownTonic,
        ImmutableArray<(int, int, double)>.Builder said
    )
    {
        for (var pc = 0; pc < 12; pc++)
        {
            if (shares[pc] == 0)
                continue;
            if (window <= Window.InTune || window is Window.NextBar or Window.BarBefore)
                said.Add((HarmonyRows.Heard(third, window, Mod(pc - ownTonic)), ownTonic, shares[pc]));
            if (window != Window.InTune)
                said.Add((HarmonyRows.Seen(window), pc, shares[pc]));
        }
    }

    // The pitch class, above the tune's tonic, that sounds at a moment.
    private int? PitchAt(TuneBar bar, Fraction at)
    {
        foreach (var note in bar.Notes)
        {
            if (note.At <= at && note.At + note.Length > at)
                return Mod(note.Pitch.Midi - tonic);
        }
        return null;
    }

    // Shares of the span that each pitch class above the tune's tonic sounds.
    private double[] Shares(TuneBar bar, Fraction at, Fraction length)
    {
        var shares = new double[12];
        var end = at + length;
        foreach (var note in bar.Notes)
        {
            var from = Fraction.Max(note.At, at);
            var to = Fraction.Min(note.At + note.Length, end);
            if (to > from)
                shares[Mod(note.Pitch.Midi - tonic)] += ((to - from) / length).ToDouble();
        }
        return shares;
    }

    private string Melody(TuneBar bar) =>
        $"{bar.Length},{bar.Time},{Mod(bar.Key.Tonic.PitchClass - tonic)}:{string.Join(' ', bar.Notes.Select(note => $"{note.At} {note.Length} {note.Pitch.Midi}"))}";

    private static int ThirdOf(Mode mode) => mode is Mode.Major or Mode.Mixolydian or Mode.Lydian ? 0 : 1;

    private static int Metre(TimeSignature time, int perBar) =>
        perBar switch
        {
            4 => 0,
            2 => time.IsCompound ? 2 : 1,
            3 => time.IsCompound ? 4 : 3,
            _ => 5,
        };

    private static int Mod(int value) => ((value % 12) + 12) % 12;
}
