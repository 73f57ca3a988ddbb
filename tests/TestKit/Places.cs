namespace Rollwright.TestKit;

/// <summary>Where the repository is, and the shared test data beside it.</summary>
public static class Places
{
    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Test data beside the repository; tests skip with a notice where it is missing.</summary>
    public static string Shared => Path.GetFullPath(Path.Combine(Root, "..", "shared"));

    /// <summary>A folder or file of the shared test data; skips the running test with a notice where it is missing.</summary>
    public static string NeedShared(string relative)
    {
        var path = Path.Combine(Shared, relative);
        Assert.SkipUnless(Path.Exists(path), $"needs ../shared/{relative}, which is not here");
        return path;
    }

    /// <summary>Where tests leave pictures for people to look at; it is there.</summary>
    public static string Pictures => Directory.CreateDirectory(Path.Combine(Root, "out", "pictures")).FullName;

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Rollwright.slnx")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("Tests run inside the repository.");
    }
}
