using System.Collections.Immutable;

namespace Rollwright.Banjo.Data;

/// <summary>The data files that travel inside the program; their readable form is the folder data/.</summary>
public static class BuiltInData
{
    /// <param name="name">File name, such as "rolls.txt" or "licks/g.txt".</param>
    public static string Text(string name)
    {
        using var stream =
            typeof(BuiltInData).Assembly.GetManifestResourceStream(name)
            ?? throw new ArgumentException($"There is no built-in data file '{name}'.", nameof(name));
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    /// <summary>Names of the files in a folder of data/, in order of the alphabet, such as "licks/c.txt".</summary>
    public static ImmutableArray<string> In(string folder) =>
        [
            .. typeof(BuiltInData)
                .Assembly.GetManifestResourceNames()
                .Where(name => name.StartsWith(folder + "/", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal),
        ];
}
