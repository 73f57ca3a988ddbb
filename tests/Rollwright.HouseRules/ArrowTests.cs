using System.Xml.Linq;
using ArchUnitNET.Domain;
using ArchUnitNET.Loader;
using ArchUnitNET.xUnitV3;
using Rollwright.TestKit;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace Rollwright.HouseRules;

/// <summary>Dependency runs one way between the rooms, in references and in the compiled types.</summary>
public class ArrowTests
{
    private static readonly Dictionary<string, string[]> MayUse = new()
    {
        ["Music"] = [],
        ["Banjo"] = ["Music"],
        ["Arranging"] = ["Banjo", "Music"],
        ["Formats"] = ["Banjo", "Music"],
        ["Engraving"] = ["Banjo", "Music"],
        ["Audio"] = [],
        ["Sound"] = ["Banjo", "Music", "Audio"],
        ["Listening"] = ["Music", "Banjo", "Arranging", "Audio"],
        ["Lessons"] = ["Music", "Banjo", "Arranging", "Engraving", "Sound", "Audio", "Formats"],
        ["Library"] = ["Music", "Banjo", "Formats"],
        ["Class"] = ["Library"],
        ["Web"] =
        [
            "Music",
            "Banjo",
            "Arranging",
            "Formats",
            "Engraving",
            "Audio",
            "Sound",
            "Lessons",
            "Library",
            "Class",
            "Listening",
        ],
        ["Cli"] =
        [
            "Music",
            "Banjo",
            "Arranging",
            "Formats",
            "Engraving",
            "Audio",
            "Sound",
            "Listening",
            "Lessons",
            "Library",
            "Class",
            "Web",
        ],
    };

    private static readonly Architecture Rooms = new ArchLoader()
        .LoadAssemblies([
            .. MayUse
                .Keys.Where(room => room != "Cli")
                .Select(room => System.Reflection.Assembly.Load($"Rollwright.{room}")),
        ])
        .Build();

    private static System.Reflection.Assembly Compiled(string room) =>
        System.Reflection.Assembly.Load($"Rollwright.{room}");

    public static TheoryData<string> RoomNames => [.. MayUse.Keys];

    [Fact]
    public void Every_room_is_known_here() =>
        Directory
            .GetDirectories(Path.Combine(Places.Root, "src"))
            .Select(folder => Path.GetFileName(folder)["Rollwright.".Length..])
            .Should()
            .BeEquivalentTo(MayUse.Keys);

    [Theory]
    [MemberData(nameof(RoomNames))]
    public void A_room_references_only_what_it_may(string room)
    {
        var project = XDocument.Load(
            Path.Combine(Places.Root, "src", $"Rollwright.{room}", $"Rollwright.{room}.csproj")
        );
        var used = project
            .Descendants("ProjectReference")
            .Select(reference =>
                Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value)["Rollwright.".Length..]
            );
        used.Should().BeSubsetOf(MayUse[room]);
    }

    [Theory]
    [MemberData(nameof(RoomNames))]
    public void Types_of_a_room_depend_only_on_rooms_it_may_use(string room)
    {
        foreach (
            var other in MayUse.Keys.Where(other =>
                other != room && other != "Cli" && room != "Cli" && !MayUse[room].Contains(other)
            )
        )
        {
            Types()
                .That()
                .ResideInAssembly(Compiled(room))
                .Should()
                .NotDependOnAny(Types().That().ResideInAssembly(Compiled(other)))
                .Because("dependency runs one way")
                .WithoutRequiringPositiveResults()
                .Check(Rooms);
        }
    }

    [Theory]
    [MemberData(nameof(RoomNames))]
    public void A_room_below_the_edge_knows_no_clock_no_file_and_no_unseeded_chance(string room)
    {
        if (room is "Cli" or "Web")
            return;
        string[] forbidden =
        [
            "DateTime.Now",
            "DateTime.UtcNow",
            "DateTimeOffset.Now",
            "DateTimeOffset.UtcNow",
            "Stopwatch",
            "File.",
            "Directory.",
            "FileStream",
            "HttpClient",
            "new Random()",
            "Random.Shared",
            "Guid.NewGuid",
            "Console.",
            "Environment.",
        ];
        // What is kept is kept in files; the clock is handed in even there.
        string[] allowed = room == "Library" ? ["File.", "Directory.", "FileStream", "Environment."] : [];
        foreach (
            var file in Directory
                .GetFiles(Path.Combine(Places.Root, "src", $"Rollwright.{room}"), "*.cs", SearchOption.AllDirectories)
                .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}"))
        )
        {
            var lines = File.ReadAllLines(file)
                .Where(line => !line.TrimStart().StartsWith("//", StringComparison.Ordinal));
            foreach (var word in forbidden.Except(allowed))
                lines.Should().NotContain(line => Names(line, word), $"{Path.GetFileName(file)} is below the edge");
        }
    }

    // The word stands there as a name of its own, not as the end of another.
    private static bool Names(string line, string word)
    {
        for (
            var at = line.IndexOf(word, StringComparison.Ordinal);
            at >= 0;
            at = line.IndexOf(word, at + 1, StringComparison.Ordinal)
        )
        {
            if (at == 0 || !(char.IsLetterOrDigit(line[at - 1]) || line[at - 1] is '.' or '_'))
                return true;
        }
        return false;
    }
}
