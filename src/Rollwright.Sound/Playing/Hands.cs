using System.Collections.Immutable;
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
    internal const double Contact = 0.008;

    /// <summary>Seconds that a slide takes at most (assumption).</summary>
    internal const double LongestSlide = 0.07;

    /// <summary>Semitones that a choke bends up (common practice is a half step to a whole step; an assumption).</summary>
    internal const double Bend = 1;

    /// <summary>Seconds that a choke takes to get there (assumption).</summary>
    internal const double BendTime = 0.15;

    /// <summary>Seconds that a finger takes to come down on a string or to leave it (assumption).</summary>
    internal const double ComeDown = 0.0015;

    /// <summary>Seconds before a note by which the finger that it needs has left another string (assumption).</summary>
    internal const double Lift = 0.015;

    /// <summary>Seconds in which that string goes silent (assumption).</summary>
    internal const double LiftTime = 0.005;

    private readonly ActList acts = new();
    private readonly PickingHand picking;
    private readonly Held[] held = new Held[Neck.Strings + 1];

    private record struct Held(double Since, int Fret, int? Finger, bool Rings);

    private Hands(PickingHand picking) => this.picking = picking;

    /// <summary>All acts in order of time.</summary>
    public static ImmutableArray<HandEvent> Play(IEnumerable<TimedStroke> strokes, PickingHand picking)
    {
        var hands = new Hands(picking);
        foreach (var stroke in strokes)
            hands.Play(stroke.Seconds, stroke.Played.Stroke);
        return hands.acts.InOrder();
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
            acts.Touch(seconds - contact, stroke.String, contact * 0.6);
        }
        acts.Stop(seconds, stroke.String, Above(stroke));
        acts.Pluck(seconds, stroke.String, picking.Of(stroke));
    }

    private void Slur(double seconds, Stroke stroke, SlurKind slur, Held before)
    {
        switch (slur)
        {
            case SlurKind.Slide:
                Slide(seconds, stroke, before);
                break;
            case SlurKind.Choke:
                acts.Stop(seconds, stroke.String, Above(stroke) + Bend, BendTime);
                break;
            default:
                acts.Stop(seconds, stroke.String, Above(stroke), ComeDown);
                acts.Pluck(seconds, stroke.String, picking.OfSlur(slur, stroke.IsMelody));
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
            acts.Stop(at, stroke.String, from + (passed * Math.Sign(to - from)), each * 0.4);
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
            acts.Touch(seconds - Math.Min(Lift, (seconds - note.Since) / 2), other, LiftTime);
            acts.Stop(seconds, other);
            acts.Release(seconds, other);
            held[other] = default;
        }
    }

    private static double Above(Stroke stroke) => Neck.SemitonesAbove(stroke.String, stroke.Fret);
}
