using System.Collections.Frozen;
using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Data;

namespace Rollwright.Web.Words;

/// <summary>What a term of the price is, in the words of the table that prices it.</summary>
public static class TermWords
{
    private const string File = "weights.txt";

    private static readonly FrozenDictionary<string, string> Meanings = DataTable
        .Parse(File, BuiltInData.Text(File), "name", "meaning")
        .Rows.ToFrozenDictionary(row => row["name"], row => row["meaning"]);

    /// <summary>"finger change".</summary>
    public static string Name(Term term) => TermNames.Of(term).Replace('-', ' ');

    /// <summary>"another finger takes over a held fret".</summary>
    public static string Meaning(Term term) => Meanings.GetValueOrDefault(TermNames.Of(term), "");
}
