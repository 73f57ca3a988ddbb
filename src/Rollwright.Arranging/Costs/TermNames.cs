using System.Collections.Immutable;
using System.Text;

namespace Rollwright.Arranging.Costs;

/// <summary>The names of terms as the tables and the reasons write them: "melody-missed", "thumb-1".</summary>
public static class TermNames
{
    private static readonly ImmutableDictionary<string, Term> ByName = Enum.GetValues<Term>()
        .ToImmutableDictionary(Write, StringComparer.Ordinal);

    private static readonly ImmutableArray<string> Names = [.. Enum.GetValues<Term>().Select(Write)];

    public static string Of(Term term) => Names[(int)term];

    public static Term? Find(string name) => ByName.TryGetValue(name, out var term) ? term : null;

    private static string Write(Term term)
    {
        var name = new StringBuilder();
        foreach (var c in term.ToString())
        {
            if (name.Length > 0 && (char.IsUpper(c) || char.IsDigit(c)))
                name.Append('-');
            name.Append(char.ToLowerInvariant(c));
        }
        return name.ToString();
    }
}
