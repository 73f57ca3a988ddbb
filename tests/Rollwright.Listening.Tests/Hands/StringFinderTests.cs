using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Hands.Strings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Tests.Hands;

/// <summary>Strings told by what hands do, and by what a new note ends. Pitches of open G (common practice, no source).</summary>
public class StringFinderTests
{
    private static readonly StopSense Sense = new(new(-10, 3), new(-1, 2));

    [Fact]
    public void The_short_string_is_not_plucked_twice_running() =>
        Find(null, Plucked(0, 67), Plucked(0.2, 67)).Should().BeEquivalentTo([1, 5]);

    [Fact]
    public void Where_the_note_before_stops_the_next_one_is_on_its_string() =>
        Find(Sense, Plucked(0, 59), Plucked(0.2, 62, new Moment.Fall(0, 59, -11))).Should().Equal(2, 2);

    [Fact]
    public void Where_the_note_before_rings_on_the_next_one_is_on_another() =>
        Find(Sense, Plucked(0, 59), Plucked(0.2, 62, new Moment.Fall(0, 59, -1))).Should().Equal(2, 1);

    [Fact]
    public void A_beginning_without_attack_stays_on_the_string()
    {
        var slur = Plucked(0.1, 57) with { Attack = 0 };
        Find(null, [Plucked(0, 55), slur], 0, 1).Should().Equal(3, 3);
    }

    [Theory]
    [InlineData(-10, true)]
    [InlineData(-1, false)]
    public void Stops_are_learnt_where_they_differ_from_what_rings_on(double stopped, bool isLearnt)
    {
        // Open G and B in turn on strings 3 and 2, and now and then C on string 2, which ends the B.
        var (moments, strings) = (new List<Moment>(), new List<int>());
        for (var i = 0; i < 60; i++)
        {
            var (key, on) = (i % 3) switch
            {
                0 => (55, 3),
                1 => (59, 2),
                _ => (60, 2),
            };
            var wobble = (i % 5) * 0.2;
            Moment.Fall[] falls = i % 3 == 2 ? [new(i - 1, 59, stopped - wobble), new(i - 2, 55, -1 - wobble)] : [];
            moments.Add(Plucked(i, key, falls));
            strings.Add(on);
        }
        (
            StopSense.Learn(moments, [.. strings.Select(on => (System.Collections.Immutable.ImmutableArray<int>)[on])])
            != null
        )
            .Should()
            .Be(isLearnt);
    }

    private static Moment Plucked(double onset, int key, params Moment.Fall[] falls) =>
        new(onset, [new([key], 0)], 1, 1) { Falls = [.. falls] };

    private static IEnumerable<int> Find(StopSense? sense, params Moment[] moments) =>
        Find(sense, moments, [.. Enumerable.Range(0, moments.Length).Select(i => 2 * i)]);

    private static IEnumerable<int> Find(StopSense? sense, Moment[] moments, params int[] at) =>
        new StringFinder(TuningTable.OpenG, 0, sense).Find(moments, at).Select(strings => strings[0]);
}
