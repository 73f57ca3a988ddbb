using Rollwright.TestKit;

namespace Rollwright.HouseRules;

public class RoomTests
{
    private static readonly string[] EmptyWords =
    [
        "Utils",
        "Util",
        "Helper",
        "Helpers",
        "Manager",
        "Common",
        "Base",
        "Impl",
        "Misc",
    ];

    [Fact]
    public void Every_room_opens_with_a_readme_that_says_what_it_is_for_and_what_it_may_use()
    {
        foreach (var room in Directory.GetDirectories(Path.Combine(Places.Root, "src")))
        {
            var readme = Path.Combine(room, "README.md");
            File.Exists(readme).Should().BeTrue(room);
            File.ReadAllText(readme)
                .Should()
                .ContainEquivalentOf("may use", room)
                .And.ContainEquivalentOf("read first", room);
        }
    }

    [Fact]
    public void No_file_or_folder_has_a_name_that_says_nothing() =>
        Sources()
            .Select(file => Path.GetFileNameWithoutExtension(file))
            .Should()
            .NotContain(name => EmptyWords.Any(word => name.EndsWith(word, StringComparison.Ordinal)));

    [Fact]
    public void A_folder_holds_one_concept_of_at_most_twenty_five_files() =>
        Sources()
            .GroupBy(Path.GetDirectoryName)
            .Where(folder => folder.Count() > 25)
            .Select(folder => folder.Key)
            .Should()
            .BeEmpty();

    [Fact]
    public void A_file_holds_one_idea_of_at_most_four_hundred_lines() =>
        Sources()
            .Where(file => !IsWrittenByATool(file) && File.ReadLines(file).Count() > 400)
            .Select(Path.GetFileName)
            .Should()
            .BeEmpty();

    [Fact]
    public void The_licence_of_every_package_is_recorded()
    {
        var recorded = File.ReadAllText(Path.Combine(Places.Root, "THIRD-PARTY.md"));
        var packages = System
            .Xml.Linq.XDocument.Load(Path.Combine(Places.Root, "Directory.Packages.props"))
            .Descendants("PackageVersion")
            .Select(item => item.Attribute("Include")!.Value);
        packages.Should().OnlyContain(package => recorded.Contains(package));
    }

    // What EF Core's tool notes beside a migration for itself; nobody reads it.
    private static bool IsWrittenByATool(string file) =>
        file.EndsWith(".Designer.cs", StringComparison.Ordinal)
        || file.EndsWith("ContextModelSnapshot.cs", StringComparison.Ordinal);

    private static IEnumerable<string> Sources() =>
        Directory
            .GetFiles(Path.Combine(Places.Root, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains("/obj/") && !file.Contains("\\obj\\"));
}
