using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>Parts lengths into values that notes and rests can show.</summary>
internal static class ValueSplitting
{
    /// <summary>
    /// Values that are tied together for a note: one where it can be, without hiding the middle of the bar from
    /// a reader of four beats.
    /// </summary>
    /// <param name="at">Whole notes from where a full bar would start.</param>
    public static IEnumerable<NoteValue> ForNote(Fraction at, Fraction length, TimeSignature time)
    {
        var middle = time.Bar / new Fraction(2);
        var hidesMiddle =
            time.Bar == new Fraction(1) && at < middle && at + length > middle && at % new Fraction(1, 4) != default;
        if (hidesMiddle)
        {
            foreach (var value in Greedily(middle - at, 1))
                yield return value;
            length = at + length - middle;
        }
        if (NoteValue.Of(length) is { } whole)
        {
            yield return whole;
            yield break;
        }
        foreach (var value in Greedily(length, 1))
            yield return value;
    }

    /// <summary>Values for a silence: none hides a beat.</summary>
    /// <param name="at">Whole notes from where a full bar would start.</param>
    public static IEnumerable<NoteValue> ForRest(Fraction at, Fraction length, TimeSignature time)
    {
        while (length > Fraction.Zero)
        {
            var room = length;
            if (time.IsCompound)
            {
                var rest = at % time.Beat;
                room = Fraction.Min(length, rest == Fraction.Zero ? length : time.Beat - rest);
            }
            var value = NoteValue.UpTo(room, time.IsCompound && at % time.Beat == Fraction.Zero ? 1 : 0);
            while (value is { Dots: 0, Denominator: < NoteValue.Finest } && at % value.Length != Fraction.Zero)
                value = new(value.Denominator * 2);
            yield return value;
            at += value.Length;
            length -= value.Length;
        }
    }

    private static IEnumerable<NoteValue> Greedily(Fraction length, int mostDots)
    {
        while (length > Fraction.Zero)
        {
            var value = NoteValue.UpTo(length, mostDots);
            yield return value;
            length -= value.Length;
        }
    }
}
