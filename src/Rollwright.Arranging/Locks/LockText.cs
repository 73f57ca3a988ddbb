using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Locks;

/// <summary>
/// Locks as text that is kept beside a break, to come back with it: "12 note 3.2T", "12-20 no-slur", "12 sound T3.2 M1.0",
/// "12 lick NAME". Places are steps of the grid, from 0; people type bars and beats instead (<see cref="LockReader"/>).
/// </summary>
public static class LockText
{
    /// <exception cref="ArgumentException">The lock is one that the solver sets for itself.</exception>
    public static string Write(Lock kept)
    {
        ArgumentNullException.ThrowIfNull(kept);
        var place = kept.First == kept.Last ? $"{kept.First}" : $"{kept.First}-{kept.Last}";
        return kept switch
        {
            SoundLock sound => $"{place} sound {SoundOf(sound.Kept)}".TrimEnd(),
            NoteLock note => $"{place} note {note.String}.{note.Fret}{note.Finger}",
            RestLock => $"{place} rest",
            SlurLock => $"{place} slur",
            PinchLock => $"{place} pinch",
            FingerLock finger => $"{place} finger {finger.Finger}",
            NoSlurLock => $"{place} no-slur",
            FretLock frets => $"{place} frets {frets.Highest}",
            ShapeLock shape =>
                $"{place} shape {string.Join('-', shape.Frets.Select(fret => fret is { } on ? $"{on}" : "x"))}",
            WayLock way => $"{place} way {way.Manner} {way.Name}",
            LickLock lick => $"{kept.First} lick {lick.Place.Lick.Name}",
            _ => throw new ArgumentException($"{kept.GetType().Name} is no lock of a person.", nameof(kept)),
        };
    }

    /// <summary>Null for a text that is no lock, or one that this arrangement has no place for.</summary>
    public static Lock? Read(string text, Arrangement made)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(made);
        var parts = text.Split(' ', 3, StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length < 2 || Steps(parts[0]) is not var (first, last))
            return null;
        if (first > last || last >= made.Grid.Steps.Length)
            return null;
        var rest = parts.Length > 2 ? parts[2] : "";
        return parts[1] switch
        {
            "sound" => Sound(rest) is { } sound ? new SoundLock(first, sound) : null,
            "note" => Note(first, rest),
            "rest" => new RestLock(first),
            "slur" => new SlurLock(first),
            "pinch" => new PinchLock(first),
            "finger" when rest.Length == 1 && FingerOf(rest[0]) is { } finger => new FingerLock(first, finger),
            "no-slur" => new NoSlurLock(first, last),
            "frets" when Number(rest) is { } fret => new FretLock(first, last, fret),
            "shape" when rest.Split('-') is { Length: 4 } frets => new ShapeLock(
                first,
                last,
                [.. frets.Select(Number)]
            ),
            "way"
                when rest.Split(' ') is [var manner, var name]
                    && Number(manner) is { } index
                    && index < made.Style.Manners.Length => new WayLock(first, last, index, name),
            "lick" => made.LicksAt(first).FirstOrDefault(place => place.Lick.Name == rest) is { } place
                ? new LickLock(place)
                : null,
            _ => null,
        };
    }

    // "T3.2 M1.0" plucked; "h3.4" made by the left hand; "T3.2s4" plucked and slid at once; nothing for silence.
    private static string SoundOf(PathStep done)
    {
        if (done.SlurString != 0)
            return $"{SlurNames.Letter(done.Slur!.Value)}{done.SlurString}.{done.Shape.FretOn(done.SlurString)}";
        var half = done is { HalfShape: { } shape, HalfSlur: { } slur } ? (shape, slur) : ((HandShape, SlurKind)?)null;
        return string.Join(
            ' ',
            done.Event.Plucks.Select(
                (pluck, i) =>
                    $"{pluck.Finger}{pluck.String}.{done.Shape.FretOn(pluck.String)}"
                    + (half is var (after, how) && i == 0 ? $"{SlurNames.Letter(how)}{after.FretOn(pluck.String)}" : "")
            )
        );
    }

    private static PathStep? Sound(string text)
    {
        var (shape, after) = (HandShape.Open, HandShape.Open);
        SlurKind? halfSlur = null;
        var plucks = ImmutableArray.CreateBuilder<(RightFinger Finger, int String)>();
        foreach (var note in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (note.Length < 4 || note[2] != '.' || note[1] is < '1' or > '5')
                return null;
            var on = note[1] - '0';
            var tail = note[3..];
            var letter = tail.IndexOfAny(['h', 'p', 's', 'c']);
            if (Number(letter < 0 ? tail : tail[..letter]) is not { } fret || !Neck.HasFret(on, fret))
                return null;
            shape = Put(shape, on, fret);
            if (SlurOf(note[0]) is { } slur)
                return new(shape, 0, on, slur);
            if (FingerOf(note[0]) is not { } finger)
                return null;
            plucks.Add((finger, on));
            var others = after;
            after = Put(others, on, fret);
            if (letter < 0)
                continue;
            if (
                SlurOf(tail[letter]) is not { } how
                || Number(tail[(letter + 1)..]) is not { } to
                || !Neck.HasFret(on, to)
            )
                return null;
            // Pulled off to the open string, the finger is no longer on it.
            (halfSlur, after) = (how, Put(others, on, to));
        }
        var row = RightEvent.All.ToList().FindIndex(one => one.Plucks.SequenceEqual(plucks));
        return row < 0 ? null : new(shape, RightEvent.Row(0, row), 0, null, halfSlur is null ? null : after, halfSlur);
    }

    // Which finger stops the string does not matter to what sounds.
    private static HandShape Put(HandShape shape, int on, int fret) =>
        on == Neck.ShortString || fret == 0 ? shape : shape.With(on, fret, 1);

    // Not by parsing the enumeration: it takes numbers too.
    private static RightFinger? FingerOf(char letter) =>
        letter switch
        {
            'T' => RightFinger.T,
            'I' => RightFinger.I,
            'M' => RightFinger.M,
            _ => null,
        };

    private static SlurKind? SlurOf(char letter)
    {
        foreach (var kind in Enum.GetValues<SlurKind>())
        {
            if (SlurNames.Letter(kind)[0] == letter)
                return kind;
        }
        return null;
    }

    private static NoteLock? Note(int step, string note)
    {
        var finger = note.Length > 0 ? FingerOf(note[^1]) : null;
        var parts = (finger is null ? note : note[..^1]).Split('.');
        return parts.Length == 2 && Number(parts[0]) is { } on && Number(parts[1]) is { } fret && Neck.HasFret(on, fret)
            ? new(step, on, fret, finger)
            : null;
    }

    private static (int First, int Last)? Steps(string place)
    {
        var ends = place.Split('-');
        return ends.Length <= 2 && Number(ends[0]) is { } first && Number(ends[^1]) is { } last ? (first, last) : null;
    }

    private static int? Number(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
