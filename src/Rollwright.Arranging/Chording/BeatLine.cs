using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Evidence = System.Collections.Immutable.ImmutableArray<(int Row, int From, double Amount)>.Builder;

namespace Rollwright.Arranging.Chording;

/// <summary>Lays a tune out in beats, each with all that speaks for its chord.</summary>
internal sealed class BeatLine
{
    private readonly Tune tune;
    private readonly BarTree tree;
    private readonly Hearing hearing;
    private readonly double notesPerBeat;

    private BeatLine(Tune tune)
    {
        this.tune = tune;
        tree = BarTree.Of(tune.Order, tune.Bars.Length);
        hearing = new(tune);
        Places = PhrasePlaces.Of(tune, tree);
        notesPerBeat =
            tune.Bars.Sum(bar => bar.Notes.Length)
            / tune.Bars.Sum(bar => (bar.Length / BeatGrid.Length(bar.Time)).ToDouble());
        Beats = Lay();
    }

    public PhrasePlaces Places { get; }

    public ImmutableArray<Beat> Beats { get; }

    public static BeatLine Of(Tune tune) => new(tune);

    private ImmutableArray<Beat> Lay()
    {
        var beats = ImmutableArray.CreateBuilder<Beat>();
        var last = new int[tune.Bars.Length];
        var melodies = new Dictionary<string, int>();
        for (var index = 0; index < tune.Bars.Length; index++)
        {
            var parent = tree.Parent[index];
            var before = parent < 0 ? -1 : last[parent];
            var melody = Melody(tune.Bars[index]);
            foreach (var (at, length) in BeatGrid.Of(tune.Bars[index]))
            {
                var place = $"{melody} {at}";
                melodies.TryAdd(place, melodies.Count);
                beats.Add(Make(index, at, length, before, melodies[place]));
                before = beats.Count - 1;
            }
            last[index] = before;
        }
        return beats.ToImmutable();
    }

    private Beat Make(int index, Fraction at, Fraction length, int before, int like)
    {
        var bar = tune.Bars[index];
        var missing = Places.IsPickup(index) ? bar.Time.Bar - bar.Length : Fraction.Zero;
        var place = BeatPlace.Of(bar, at, missing);
        var key = HarmonyRows.KeyOf(bar.Key.Mode);
        var tonic = hearing.AboveTonic(bar.Key.Tonic.PitchClass);
        var toEnd = Places.ToEnd[index];
        var evidence = ImmutableArray.CreateBuilder<(int Row, int From, double Amount)>();
        AddPlace(index, place, key, tonic, evidence);
        AddBeat(bar, at, length, place, key, tonic, evidence);
        AddAround(index, at, length, place, missing, evidence);
        var changes = ImmutableArray.CreateBuilder<int>();
        changes.Add(ChangeRows.Metre(place));
        changes.Add(ChangeRows.Bar(Places.FromStart[index], place.Weight));
        changes.Add(ChangeRows.Density(notesPerBeat, place.Weight));
        if (toEnd < 2)
            changes.Add(ChangeRows.End(toEnd, place.Weight));
        return new(index, at)
        {
            Before = before,
            Tonic = tonic,
            Key = key,
            Weight = place.Weight,
            IsEnd = toEnd == 0,
            Evidence = evidence.ToImmutable(),
            Changes = changes.ToImmutable(),
            Like = like,
        };
    }

    // Where the beat is: in its metre, its phrase, its part.
    private void AddPlace(int index, BeatPlace place, int key, int tonic, Evidence evidence)
    {
        var toEnd = Places.ToEnd[index];
        evidence.Add((HarmonyRows.Always(key), tonic, 1));
        evidence.Add((HarmonyRows.Metre(key, place.Metre), tonic, 1));
        evidence.Add((HarmonyRows.Bar(key, Places.FromStart[index], place.Half), tonic, 1));
        if (toEnd < 2)
            evidence.Add((HarmonyRows.End(key, toEnd, place.Half), tonic, 1));
        if (toEnd == 0 && index == tune.Order[^1])
            evidence.Add((HarmonyRows.End(key, 2, place.Half), tonic, 1));
        for (var note = 0; note < 12; note++)
            evidence.Add((HarmonyRows.DegreeInTune(key, (note - tonic + 12) % 12), tonic, hearing.Whole[note]));
    }

    // What sounds as the beat begins, and within it.
    private void AddBeat(
        TuneBar bar,
        Fraction at,
        Fraction length,
        BeatPlace place,
        int key,
        int tonic,
        Evidence evidence
    )
    {
        if (hearing.At(bar, at) is { } note)
        {
            evidence.Add((HarmonyRows.DegreeOnBeat(key, (note - tonic + 12) % 12), tonic, 1));
            evidence.Add((HarmonyRows.Note((NoteWindow)place.Weight), note, 1));
        }
        Hear(NoteWindow.WithinBeat, hearing.Shares(bar, at, at + length), evidence);
    }

    // What sounds about it: a chord is heard in its half bar, and on its way to the next bar.
    private void AddAround(
        int index,
        Fraction at,
        Fraction length,
        BeatPlace place,
        Fraction missing,
        Evidence evidence
    )
    {
        var bar = tune.Bars[index];
        var beat = BeatGrid.Length(bar.Time);
        if (hearing.At(bar, at + beat) is { } next)
            evidence.Add((HarmonyRows.Note(NoteWindow.OnNextBeat), next, 1));
        if (at >= beat && hearing.At(bar, at - beat) is { } previous)
            evidence.Add((HarmonyRows.Note(NoteWindow.OnBeatBefore), previous, 1));
        var middle = Fraction.Max(Fraction.Zero, (bar.Time.Bar * new Fraction(1, 2)) - missing);
        var half =
            place.Half == 0
                ? hearing.Shares(bar, Fraction.Zero, Fraction.Min(bar.Length, Fraction.Max(middle, at + length)))
                : hearing.Shares(bar, Fraction.Min(middle, at), bar.Length);
        Hear(NoteWindow.InHalfBar, half, evidence);
        if (index + 1 < tune.Bars.Length)
            Hear(NoteWindow.InNextBar, hearing.Bar(index + 1), evidence);
        if (tree.Parent[index] >= 0)
            Hear(NoteWindow.InBarBefore, hearing.Bar(tree.Parent[index]), evidence);
    }

    private static void Hear(NoteWindow window, double[] shares, Evidence evidence)
    {
        for (var note = 0; note < 12; note++)
        {
            if (shares[note] > 0)
                evidence.Add((HarmonyRows.Note(window), note, shares[note]));
        }
    }

    private string Melody(TuneBar bar) =>
        $"{bar.Time} {bar.Length} {hearing.AboveTonic(bar.Key.Tonic.PitchClass)} {bar.Key.Mode}: "
        + string.Join(' ', bar.Notes.Select(note => $"{note.At}+{note.Length}={note.Pitch.Midi}"));
}
