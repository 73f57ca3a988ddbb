using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Tests.Licks;

/// <summary>
/// What makes a lick lie well under the hands, beyond what hands can do at all (common practice, no source). A player's
/// own licks need not keep to it; those of the program do.
/// </summary>
public class LickHandsTests
{
    public static TheoryData<string> Names => [.. LickTable.All.Select(lick => lick.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_right_hand_does_not_cross_from_step_to_step(string name)
    {
        foreach (var (a, b) in Neighbours(Find(name)))
        {
            var crossed =
                from one in a.Plucks
                from two in b.Plucks
                where
                    (one.Right < two.Right && one.String < two.String)
                    || (one.Right > two.Right && one.String > two.String)
                select (one, two);
            crossed.Should().BeEmpty();
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void No_string_is_plucked_on_two_steps_running_but_in_single_string_lines(string name)
    {
        var lick = Find(name);
        foreach (var (a, b) in Neighbours(lick))
        {
            foreach (var note in a.Plucks)
            {
                foreach (var again in b.Plucks.Where(other => other.String == note.String))
                {
                    lick.Role.Should().BeOneOf(LickRole.Run, LickRole.Pickup, LickRole.Turnaround);
                    again.Fret.Should().NotBe(note.Fret, "a line moves on");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_middle_finger_stays_off_the_low_strings(string name) =>
        Find(name)
            .Steps.SelectMany(step => step.Plucks)
            .Should()
            .OnlyContain(note => note.Right != RightFinger.M || note.String <= 3);

    // A roll begins with the thumb more often than not.
    [Theory]
    [MemberData(nameof(Names))]
    public void The_last_step_leaves_the_thumb_free_for_what_follows(string name)
    {
        var lick = Find(name);
        if (lick.Role != LickRole.Tag)
            lick.Steps[^1].Plucks.Should().NotContain(note => note.Right == RightFinger.T);
    }

    // Fingers stay down while their note is wanted again; higher fingers hold higher frets; only the index lies across.
    [Theory]
    [MemberData(nameof(Names))]
    public void The_left_hand_holds_shapes_and_no_finger_hops_from_string_to_string(string name)
    {
        var lick = Find(name);
        LickNote[] before = [];
        for (var i = 0; i < lick.Length; i++)
        {
            LickNote[] held = [.. Enumerable.Range(1, 4).Select(s => Held(lick, s, i)).OfType<LickNote>()];
            foreach (var a in held)
            {
                foreach (var b in held.Where(b => b.String > a.String))
                {
                    if (a.Left == b.Left)
                        (a.Left == 1 && a.Fret == b.Fret).Should().BeTrue($"step {i + 1}: {a}, {b}");
                    else
                        ((a.Left < b.Left) ? a.Fret <= b.Fret : a.Fret >= b.Fret)
                            .Should()
                            .BeTrue($"step {i + 1}: {a}, {b}");
                }
                before
                    .Where(b => b.Left == a.Left && b.String != a.String)
                    .Should()
                    .OnlyContain(b => b.Left == 1 && b.Fret == a.Fret, $"step {i + 1}: {a}");
            }
            Reach.Between(held.Select(note => note.Fret)).Should().BeLessThanOrEqualTo(Reach.Widest);
            before = held;
        }
    }

    // The seam of a fill with itself counts too.
    private static IEnumerable<(LickStep A, LickStep B)> Neighbours(Lick lick)
    {
        for (var i = 1; i < lick.Length; i++)
            yield return (lick.Steps[i - 1], lick.Steps[i]);
        if (lick.Role == LickRole.Fill)
            yield return (lick.Steps[^1], lick.Steps[0]);
    }

    private static LickNote? Held(Lick lick, int on, int at)
    {
        var now = Sounding(lick.Steps[at], on);
        if (now is not null)
            return now.Value.Fret > 0 ? now : null;
        var last = Enumerable
            .Range(1, at)
            .Select(back => Sounding(lick.Steps[at - back], on))
            .FirstOrDefault(n => n is not null);
        var coming = lick
            .Steps.Skip(at + 1)
            .Select(step => Plucked(step, on) ?? Sounding(step, on))
            .FirstOrDefault(n => n is not null);
        return last is { Fret: > 0 } a && coming is { } b && (a.Fret, a.Left) == (b.Fret, b.Left) ? last : null;
    }

    private static LickNote? Sounding(LickStep step, int on) =>
        step.HalfSlur is { } half && half.String == on ? new(on, half.Fret, default, half.Left)
        : step.Slur is { } slur && slur.String == on ? new(on, slur.Fret, default, slur.Left)
        : Plucked(step, on);

    private static LickNote? Plucked(LickStep step, int on)
    {
        foreach (var note in step.Plucks)
        {
            if (note.String == on)
                return note;
        }
        return null;
    }

    private static Lick Find(string name) => LickTable.All.First(lick => lick.Name == name);
}
