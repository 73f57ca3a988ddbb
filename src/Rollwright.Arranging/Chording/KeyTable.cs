using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Chording;

/// <summary>The key finder's numbers, from <c>data/keys.txt</c>.</summary>
/// <param name="weights">Row by row of <see cref="KeyEvidence"/>, the 24 keys as seen from the note.</param>
internal sealed class KeyTable(double[] weights)
{
    private static readonly Lazy<KeyTable> Read = new(() => Parse(BuiltInData.Text("keys.txt")));

    public static KeyTable BuiltIn => Read.Value;

    public static KeyTable Zero => new(new double[KeyEvidence.Rows.Length * Triad.Count]);

    public double[] Weights { get; } = weights;

    /// <summary>How likely each key is: number 2 · tonic's pitch class, one more for a minor third.</summary>
    public double[] Chances(ImmutableArray<(int Row, int Note, double Amount)> evidence)
    {
        var chances = new double[Triad.Count];
        foreach (var (row, note, amount) in evidence)
        {
            for (var key = 0; key < Triad.Count; key++)
                chances[key] += amount * Weights[(row * Triad.Count) + Triad.SeenFrom(key, note)];
        }
        var most = chances.Max();
        for (var key = 0; key < Triad.Count; key++)
            chances[key] = Math.Exp(chances[key] - most);
        var sum = chances.Sum();
        return [.. chances.Select(chance => chance / sum)];
    }

    /// <exception cref="DataException">A row is not known here, or holds what is no number.</exception>
    public static KeyTable Parse(string text)
    {
        var table = Zero;
        foreach (var row in DataTable.Parse("keys.txt", text, ["what", .. Triad.Names]).Rows)
        {
            var at = KeyEvidence.Rows.IndexOf(row["what"]);
            if (at < 0)
                throw row.Wrong($"'{row["what"]}' is nothing that the key finder asks for");
            for (var key = 0; key < Triad.Count; key++)
                table.Weights[(at * Triad.Count) + key] = row.Number(Triad.Names[key]);
        }
        return table;
    }

    public string Write() => NumberRows.Write(KeyEvidence.Rows, Weights);
}
