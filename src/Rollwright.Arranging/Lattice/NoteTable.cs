using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Lattice;

/// <summary>Prices of every string and fret at one step, so that the events only add them up.</summary>
internal sealed class NoteTable
{
    private readonly int[] price;
    private readonly int[] missing;
    private readonly bool[] melody;
    private readonly int frets;

    public NoteTable(StepLattice lattice, int step)
    {
        var place = lattice.Grid.Steps[step];
        var after = lattice.After(step);
        var next = after < 0 ? null : lattice.Grid.Steps[after];
        frets = lattice.Bounds.HighestFret + 6;
        price = new int[5 * frets];
        missing = new int[5 * frets];
        melody = new bool[5 * frets];
        Missed = lattice.Notes.Missed(place);
        HalfMissed = lattice.Notes.HalfMissed(place);
        for (var s = 1; s <= Neck.Strings; s++)
        {
            for (var fret = 0; fret < (s == 5 ? 1 : frets); fret++)
            {
                var at = ((s - 1) * frets) + fret;
                var key = lattice.Setting.Tuning.KeyOf(s, fret);
                price[at] = lattice.Notes.Of(place, next, s, fret);
                missing[at] = lattice.Notes.Missing(place, key);
                melody[at] = place.Onset == key;
            }
        }
    }

    /// <summary>Price of silence where the tune has a note at the step.</summary>
    public int Missed { get; }

    /// <summary>Price of silence where the tune has a note half a step later.</summary>
    public int HalfMissed { get; }

    public int Price(int onString, int fret) => price[((onString - 1) * frets) + fret];

    public int Missing(int onString, int fret) => missing[((onString - 1) * frets) + fret];

    public bool IsMelody(int onString, int fret) => melody[((onString - 1) * frets) + fret];
}
