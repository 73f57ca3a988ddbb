namespace Rollwright.Engraving.Tests;

public class CollisionTests
{
    [Fact]
    public void Signs_that_are_read_apart_stand_apart() =>
        Pages.Claim((_, layout) => Collisions.OfSigns(layout).FirstOrDefault().Should().BeNull());

    [Fact]
    public void No_line_of_the_music_passes_through_words() =>
        Pages.Claim((_, layout) => Collisions.OfLines(layout).FirstOrDefault().Should().BeNull());
}
