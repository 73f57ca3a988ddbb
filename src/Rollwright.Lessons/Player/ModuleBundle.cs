using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Rollwright.Lessons.Player;

/// <summary>
/// Modules as one script, for a page that is a file: there, modules may not be loaded from beside it. Each keeps a scope of its
/// own. It knows the two forms that our modules are written in: <c>import { a, b } from "./x.js";</c> on a line of its own, and
/// <c>export</c> before a class, a function (async or not) or a const.
/// </summary>
public static partial class ModuleBundle
{
    /// <param name="entry">File name of the module that draws in the others.</param>
    /// <returns>A script that ends with the exports of the entry as its value's members, in <c>entry</c>.</returns>
    public static string Of(string entry)
    {
        var script = new StringBuilder("\"use strict\";\n");
        var done = new Dictionary<string, string>(StringComparer.Ordinal);
        Append(entry, script, done);
        return script.Append("const entry = ").Append(done[entry]).Append(";\n").ToString();
    }

    private static void Append(string name, StringBuilder script, Dictionary<string, string> done)
    {
        if (done.ContainsKey(name))
            return;
        var text = PlayerAssets.Text(name);
        foreach (Match import in Imports().Matches(text))
            Append(import.Groups["file"].Value, script, done);
        var own = string.Create(CultureInfo.InvariantCulture, $"module{done.Count}");
        var exports = string.Join(", ", Exports().Matches(text).Select(match => match.Groups["name"].Value));
        var body = Imports()
            .Replace(text, import => $"const {import.Groups["names"].Value} = {done[import.Groups["file"].Value]};");
        body = Exports().Replace(body, "${kind} ${name}");
        script.Append($"// {name}\nconst {own} = (() => {{\n{body}return {{ {exports} }};\n}})();\n");
        done.Add(name, own);
    }

    [GeneratedRegex(
        """^import (?<names>\{[^}]+\}) from "\./(?<file>[^"]+)";$""",
        RegexOptions.Multiline | RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Imports();

    [GeneratedRegex(
        """^export (?<kind>class|(?:async )?function|const) (?<name>\w+)""",
        RegexOptions.Multiline | RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Exports();
}
