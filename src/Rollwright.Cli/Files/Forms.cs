using System.Collections.Immutable;
using Rollwright.Web.State;

namespace Rollwright.Cli.Files;

/// <summary>Which form of output is asked for.</summary>
internal static class Forms
{
    public static string Known => string.Join(", ", FileForm.All.Select(form => form.Ending));

    /// <summary>The form that a file's ending asks for; "-" is plain-text tab.</summary>
    public static FileForm OfFile(string path) =>
        Named(path == "-" ? "tab" : Path.GetExtension(path).TrimStart('.'), path);

    /// <summary>The forms of a list such as "tab,musicxml,mid".</summary>
    public static ImmutableArray<FileForm> OfList(string list)
    {
        var forms = list.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(name => Named(name, "--to"))
            .ToImmutableArray();
        return forms.IsEmpty ? throw new RequestException($"--to names no form; known are {Known}") : forms;
    }

    private static FileForm Named(string ending, string where) =>
        FileForm.Find(ending.ToLowerInvariant())
        ?? throw new RequestException($"{where}: no form is called '{ending}'; known are {Known}");
}
