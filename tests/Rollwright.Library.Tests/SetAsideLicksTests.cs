using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

public class SetAsideLicksTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Everyone_has_a_list_of_their_own_that_outlives_the_program_and_can_be_emptied(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        foreach (var lick in new[] { "walk up", "Slide, and off", "walk up" })
            await shelf.Library.SetLickAsideAsync("ann", lick);
        await shelf.Library.SetLickAsideAsync("ben", "walk up");
        var library = await shelf.Reopen();
        (await library.SetAsideLicksAsync("ann")).Should().Equal("Slide, and off", "walk up");
        await library.BringLicksBackAsync("ann");
        (await library.SetAsideLicksAsync("ann")).Should().BeEmpty();
        (await library.SetAsideLicksAsync("ben")).Should().Equal("walk up");
    }
}
