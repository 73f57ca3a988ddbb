using System.Collections.Immutable;

namespace Rollwright.Sound.Browser;

/// <summary>
/// The string model and the player's engine as JavaScript modules, embedded. They lie beside the model that they repeat, so
/// that whoever changes one sees the other, and so that the workbench and pages without a server can both take them.
/// </summary>
public static class BrowserModules
{
    /// <summary>The module of the audio worklet: it draws in all that sounds.</summary>
    public const string Worklet = "worklet.js";

    private const string Folder = "browser/";

    /// <summary>File names, in order of the alphabet.</summary>
    public static ImmutableArray<string> Names { get; } =
    [
        .. typeof(BrowserModules)
            .Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
            .Select(name => name[Folder.Length..])
            .Order(StringComparer.Ordinal),
    ];

    /// <exception cref="ArgumentException">There is none of that name.</exception>
    public static string Text(string name)
    {
        using var stream =
            typeof(BrowserModules).Assembly.GetManifestResourceStream(Folder + name)
            ?? throw new ArgumentException($"There is no module '{name}'.", nameof(name));
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
