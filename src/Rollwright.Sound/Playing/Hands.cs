using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Sound.Playing;

/// <summary>
/// Turns strokes into acts of the hands on the strings: touching before plucking anew, stopping at frets, sliding from
/// fret to fret, hammering, pulling off, bending, and letting go of a string whose finger is needed elsewhere.
/// </summary>
internal sealed class Hands
{
    /// <summary>Seconds that a pick rests on a ringing string before it plucks: a whole round trip of the lowest.</summary>
    private const double Contact = 0.008;

    /// <summary>Seconds that a slide takes at most (assumption).</summary>
    private const double LongestSlide = 0.07;

    /// <summary>Semitones that a choke bends up (common practice is a half step to a whole step; an assumption).</summary>
    private const double Bend = 1;

    private readonly List<HandEvent> events = [];
    private readonly int rate;
    private readonly Touch touch;
    private readonly Held[] held = new Held[Neck.Strings + 1];

    private record struct Held(double Since, int Fret, int? Finger, bool Rings);

    private Hands(int rate, int seed)
    {
        this.rate = rate;
        touch = new(seed);
    }

    /// <summary>All acts in order of time.</summary>
    public static HandEvent[] Play(Timeline timeline, int rate, int seed)
    {
        var hands = new Hands(rate, seed);
        foreach (var (seconds, played) in timeline.Strokes)
            hands.Play(seconds, played.Stroke);
        // Sorting by time keeps the order of acts at one frame: stop, then pluck.
        return [.. hands.events.OrderBy(act => act.Frame)];
    }

    private void Play(double seconds, Stroke stroke)
    {
        FreeFinger(seconds, stroke);
        var before = held[stroke.String];
        if (stroke.Right is null && stroke.Slur is { } slur && before.Rings)
            Slur(seconds, stroke, slur, before);
        else
            Pluck(seconds, stroke, before);
        held[stroke.String] = new(seconds, stroke.Fret, stroke.Left, true);
    }

    private void Pluck(double seconds, Stroke stroke, Held before)
    {
        if (before.Rings)
        {
            var contact = Math.Min(Contact, (seconds - before.Since) / 2);
            Add(seconds - contact, HandAct.Touch, stroke.String, ramp: Frames(contact * 0.6));
        }
        Add(seconds, HandAct.Stop, stroke.String, Above(stroke));
        events.Add(new(Frame(seconds), HandAct.Pluck, stroke.String, Pluck: touch.Of(stroke)));
    }

    private void Slur(double seconds, Stroke stroke, SlurKind slur, Held before)
    {
        switch (slur)
        {
            case SlurKind.Slide:
                Slide(seconds, stroke, before);
                break;
            case SlurKind.Choke:
                var until = seconds + 0.15;
                Add(seconds, HandAct.Stop, stroke.String, Above(stroke) + Bend, Frames(until - seconds));
                break;
            default:
                Add(seconds, HandAct.Stop, stroke.String, Above(stroke), Frames(0.0015));
                var push = Touch.OfSlur(slur, stroke.IsMelody);
                events.Add(new(Frame(seconds), HandAct.Pluck, stroke.String, Pluck: push));
                break;
        }
    }

    // A finger that stays down passes every fret between and arrives on time.
    private void Slide(double seconds, Stroke stroke, Held before)
    {
        var from = Neck.SemitonesAbove(stroke.String, before.Fret);
        var to = Neck.SemitonesAbove(stroke.String, stroke.Fret);
        var frets = Math.Abs(to - from);
        if (frets == 0)
            return;
        var each = Math.Min(LongestSlide, (seconds - before.Since) * 0.6) / frets;
        for (var passed = 1; passed <= frets; passed++)
        {
            var at = seconds - ((frets - passed) * each) - (each * 0.4);
            Add(at, HandAct.Stop, stroke.String, from + (passed * Math.Sign(to - from)), Frames(each * 0.4));
        }
    }

    // One finger cannot be in two places: what it held elsewhere stops, and that string is open again.
    private void FreeFinger(double seconds, Stroke stroke)
    {
        if (stroke.Left is not { } finger)
            return;
        for (var other = 1; other <= Neck.Strings; other++)
        {
            var note = held[other];
            if (other == stroke.String || !note.Rings || note.Finger != finger || note.Fret == stroke.Fret)
                continue;
            if (note.Since >= seconds)
                continue;
            Add(seconds - Math.Min(0.015, (seconds - note.Since) / 2), HandAct.Touch, other, ramp: Frames(0.005));
            Add(seconds, HandAct.Stop, other);
            Add(seconds, HandAct.Release, other);
            held[other] = default;
        }
    }

    private void Add(double seconds, HandAct act, int banjoString, double above = 0, int ramp = 0) =>
        events.Add(new(Frame(seconds), act, banjoString, above, ramp));

    private static double Above(Stroke stroke) => Neck.SemitonesAbove(stroke.String, stroke.Fret);

    private long Frame(double seconds) => Math.Max(0, (long)Math.Round(seconds * rate));

    private int Frames(double seconds) => Math.Max(1, (int)(seconds * rate));
}
