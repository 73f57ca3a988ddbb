using System.Collections.Immutable;
using Rollwright.Sound.Browser;

namespace Rollwright.Lessons.Player;

/// <summary>The files of the player: what a page needs to show and sound a break. Modules import each other by file name.</summary>
public static class PlayerAssets
{
    /// <summary>The module that a page starts: it exports <c>attach(root, page, worklet)</c>.</summary>
    public const string Controls = "controls.js";

    private const string Folder = "player/";

    private static readonly ImmutableArray<string> Own =
    [
        .. typeof(PlayerAssets)
            .Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
            .Select(name => name[Folder.Length..]),
    ];

    /// <summary>Every JavaScript module, those of the sound with them, in order of the alphabet.</summary>
    public static ImmutableArray<string> Modules { get; } =
    [
        .. Own.Where(name => name.EndsWith(".js", StringComparison.Ordinal))
            .Concat(BrowserModules.Names)
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The buttons and sliders, in HTML: what stands inside the player's section.</summary>
    public static string Markup { get; } = Text("player.html");

    /// <summary>How the player looks, after the colours that it takes.</summary>
    public static ImmutableArray<string> StyleSheets { get; } = ["palette.css", "player.css"];

    /// <exception cref="ArgumentException">There is none of that name.</exception>
    public static string Text(string name)
    {
        if (!Own.Contains(name))
            return BrowserModules.Text(name);
        using var reader = new StreamReader(typeof(PlayerAssets).Assembly.GetManifestResourceStream(Folder + name)!);
        return reader.ReadToEnd();
    }
}
