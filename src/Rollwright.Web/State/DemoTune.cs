using System.Collections.Immutable;

namespace Rollwright.Web.State;

/// <summary>A tune of our own that comes with the program.</summary>
/// <param name="File">Such as "kettle-path.abc".</param>
/// <param name="Title">As its T: line says.</param>
/// <param name="Text">ABC.</param>
public sealed record DemoTune(string File, string Title, string Text)
{
    /// <summary>In order of their file names.</summary>
    public static ImmutableArray<DemoTune> All { get; } = ReadAll();

    private static ImmutableArray<DemoTune> ReadAll()
    {
        const string folder = "demo/";
        var assembly = typeof(DemoTune).Assembly;
        return
        [
            .. assembly
                .GetManifestResourceNames()
                .Where(name => name.StartsWith(folder, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name =>
                {
                    using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
                    var text = reader.ReadToEnd();
                    var title = text.Split('\n')
                        .FirstOrDefault(line => line.StartsWith("T:", StringComparison.Ordinal));
                    return new DemoTune(name[folder.Length..], title?[2..].Trim() ?? name[folder.Length..], text);
                }),
        ];
    }
}
