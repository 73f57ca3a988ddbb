using System.Security.Cryptography;
using System.Text;
using Rollwright.Library;
using Rollwright.Library.Kept;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>What a library holds against what was said to be kept.</summary>
internal static class KeptBreaks
{
    private const string Tune = "X:1\nT:Killed Tune\nM:4/4\nL:1/8\nK:G\nGABc dedc|BGAF G4|g2fg e2d2|BAGF G4|\n";

    /// <summary>A library with one short break; its id.</summary>
    public static async Task<Guid> Begin(LibraryPlace place)
    {
        var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        var bench = new Bench(new(), new(library));
        await bench.Put("killed.abc", Tune);
        for (var left = 100; bench.Keeping.State != KeepState.Kept && left > 0; left--)
            await Task.Delay(50);
        return bench.Keeping.BreakId!.Value;
    }

    /// <summary>As <see cref="Made.Id"/> of the break.</summary>
    public static string NameOf(Revision revision) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(revision.Break)))[..16];

    /// <summary>
    /// All that was said is there, and what is shown is the last that was said, or came after it: one step back or on, or any
    /// number of changes that were made of it and whose word did not arrive.
    /// </summary>
    public static void Hold(IReadOnlyList<Revision> revisions, Revision shown, IReadOnlyList<string> said)
    {
        revisions.Select(revision => revision.Number).Should().Equal(Enumerable.Range(1, revisions.Count));
        said.Except(revisions.Select(NameOf)).Should().BeEmpty("what was said to be kept is kept");
        if (said.Count == 0)
            return;
        var last = revisions.Where(revision => NameOf(revision) == said[^1]).ToList();
        var line = new List<int>();
        for (int? number = shown.Number; number is { } at; number = revisions[at - 1].Parent)
            line.Add(at);
        last.Exists(revision => line.Contains(revision.Number) || revision.Parent == shown.Number)
            .Should()
            .BeTrue(
                $"{string.Join(", ", last.Select(revision => revision.Number))} was said last, and {shown.Number} is shown"
            );
    }
}
