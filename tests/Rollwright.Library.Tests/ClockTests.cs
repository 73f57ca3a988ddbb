using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

/// <summary>A computer's clock may be set back; the order of what was done does not go by it.</summary>
public class ClockTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_clock_that_goes_backwards_changes_no_order_and_loses_nothing(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var library = await TuneLibrary.OpenAsync(shelf.Place, new Backwards());
        var tune = Shelf.Tune("Kettle on the Boil");
        await library.AddAsync([tune]);
        var id = (await library.BeginAsync(tune.Id, "mine", Draft(1))).Id;
        for (var i = 1; i < 30; i++)
            (await library.SaveAsync(id, i, Draft(i + 1))).Should().BeOfType<SaveOutcome.Saved>();
        (await library.RevisionsAsync(id)).Select(one => one.Number).Should().Equal(Enumerable.Range(1, 30));
        (await library.CurrentAsync(id))!.Number.Should().Be(30);
        for (var i = 29; i >= 1; i--)
            (await library.UndoAsync(id))!.Number.Should().Be(i);
        for (var i = 2; i <= 30; i++)
            (await library.RedoAsync(id))!.Number.Should().Be(i);
    }

    private static Draft Draft(int number) =>
        new(Guid.NewGuid(), $"change {number}", "{}", $"{{\"n\":{number}}}", "me");

    // A day back at every look.
    private sealed class Backwards : TimeProvider
    {
        private DateTimeOffset now = new(2026, 11, 27, 12, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => now = now.AddDays(-1);
    }
}
