using System.Collections.Immutable;
using System.Text;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// The numbers of the model of chords, from <c>data/harmony.txt</c> and <c>data/harmony-changes.txt</c>: natural
/// logarithms of odds, 0 where nothing is said.
/// </summary>
internal sealed class HarmonyTable(double[] chords, double[] changes)
{
    private const string ChordFile = "harmony.txt";
    private const string ChangeFile = "harmony-changes.txt";

    private static readonly Lazy<HarmonyTable> Read = new(() =>
        Parse(BuiltInData.Text(ChordFile), BuiltInData.Text(ChangeFile))
    );

    public static HarmonyTable BuiltIn => Read.Value;

    public static HarmonyTable Zero => new(new double[HarmonyRows.Count * Triad.Count], new double[ChangeRows.Count]);

    /// <summary>Row by row of <see cref="HarmonyRows"/>, the 24 triads of each.</summary>
    public double[] Chords { get; } = chords;

    /// <summary>One for each of <see cref="ChangeRows"/>.</summary>
    public double[] Changes { get; } = changes;

    /// <exception cref="DataException">A row is not known here, comes twice, or holds what is no number.</exception>
    public static HarmonyTable Parse(string chords, string changes)
    {
        var table = Zero;
        foreach (var (row, at) in Rows(ChordFile, chords, HarmonyRows.Names, ["what", .. Triad.Names]))
        {
            for (var triad = 0; triad < Triad.Count; triad++)
                table.Chords[(at * Triad.Count) + triad] = row.Number(Triad.Names[triad]);
        }
        foreach (var (row, at) in Rows(ChangeFile, changes, ChangeRows.Names, ["what", "change"]))
            table.Changes[at] = row.Number("change");
        return table;
    }

    /// <summary>The two files' tables, to two places; rows without a number are left out.</summary>
    public (string Chords, string Changes) Write()
    {
        var width = ChangeRows.Names.Max(name => name.Length);
        var changes = new StringBuilder().Append("what".PadRight(width)).Append(" | change\n");
        foreach (var (row, name) in ChangeRows.Names.Index())
        {
            if (NumberRows.Cell(Changes[row]) is not "0" and var cell)
                changes.Append(name.PadRight(width)).Append(" | ").Append(cell).Append('\n');
        }
        return (NumberRows.Write(HarmonyRows.Names, Chords), changes.ToString());
    }

    private static IEnumerable<(DataTable.Row Row, int At)> Rows(
        string file,
        string text,
        ImmutableArray<string> names,
        params ReadOnlySpan<string> columns
    )
    {
        var rows = DataTable.Parse(file, text, columns).Rows;
        return Located(rows, names);
    }

    private static IEnumerable<(DataTable.Row Row, int At)> Located(
        ImmutableArray<DataTable.Row> rows,
        ImmutableArray<string> names
    )
    {
        var known = names.Select((name, at) => (name, at)).ToDictionary(pair => pair.name, pair => pair.at);
        foreach (var row in rows)
        {
            if (!known.Remove(row["what"], out var at))
                throw row.Wrong($"'{row["what"]}' is nothing that the model asks for, or comes twice");
            yield return (row, at);
        }
    }
}
