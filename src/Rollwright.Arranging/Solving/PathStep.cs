using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Solving;

/// <summary>What the hands do at one step of a path.</summary>
/// <param name="Shape">The left hand when the step begins to sound.</param>
/// <param name="Row">Way of playing and event; silence where the left hand slurs.</param>
/// <param name="SlurString">The string that the left hand slurs at this step instead of a pluck; 0 for none.</param>
/// <param name="Slur">How; null where nothing is slurred at the step.</param>
/// <param name="HalfShape">Within a lick, the left hand half a step later where a plucked note is slurred at once.</param>
/// <param name="HalfSlur">How.</param>
public readonly record struct PathStep(
    HandShape Shape,
    int Row,
    int SlurString = 0,
    SlurKind? Slur = null,
    HandShape? HalfShape = null,
    SlurKind? HalfSlur = null
)
{
    public RightEvent Event => RightEvent.All[RightEvent.EventOf(Row)];

    /// <summary>Which of the style's ways of playing.</summary>
    public int Manner => RightEvent.MannerOf(Row);

    /// <summary>The left hand when the step is over.</summary>
    public HandShape After => HalfShape ?? Shape;

    /// <summary>Whether the same strings sound at the same frets by the same fingers, whatever else the hands hold.</summary>
    public bool SoundsLike(PathStep other)
    {
        if (SlurString != other.SlurString || HalfSlur != other.HalfSlur)
            return false;
        if (SlurString != 0)
            return Shape.FretOn(SlurString) == other.Shape.FretOn(SlurString);
        var plucks = Event.Plucks;
        if (RightEvent.EventOf(Row) != RightEvent.EventOf(other.Row))
            return false;
        foreach (var (_, on) in plucks)
        {
            if (Shape.FretOn(on) != other.Shape.FretOn(on))
                return false;
            if (HalfShape is { } half && other.HalfShape is { } otherHalf && half.FretOn(on) != otherHalf.FretOn(on))
                return false;
        }
        return true;
    }

    /// <summary>Whether a key begins to sound, counted without the capo.</summary>
    public bool Sounds(int key, Tuning tuning)
    {
        if (SlurString != 0)
            return tuning.KeyOf(SlurString, Shape.FretOn(SlurString)) == key;
        foreach (var (_, on) in Event.Plucks)
        {
            if (tuning.KeyOf(on, Shape.FretOn(on)) == key)
                return true;
        }
        return false;
    }

    /// <summary>Strings and frets that begin to sound, as one comparable value: two bytes a note.</summary>
    public ulong Sound
    {
        get
        {
            if (SlurString != 0)
                return Note(SlurString, Shape.FretOn(SlurString)) | 0x80;
            var sound = 0UL;
            foreach (var (_, on) in Event.Plucks)
                sound = (sound << 16) | Note(on, Shape.FretOn(on));
            return sound;
        }
    }

    private static ulong Note(int onString, int fret) => (ulong)((fret << 8) | onString);
}
