using Rollwright.Banjo.Data;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Melodies;

/// <summary>How likely each kind of beginning is at each place of a bar: <c>data/metres.txt</c>.</summary>
/// <param name="Time">The metre.</param>
/// <param name="Kinds">By step of the bar, by kind: natural logarithms of odds against its share in all tunes.</param>
/// <param name="First">By step: the tune's first note stands there; natural logarithms of chance.</param>
/// <param name="Last">By step: the last note.</param>
internal sealed record MetreTable(TimeSignature Time, double[][] Kinds, double[] First, double[] Last)
{
    /// <summary>Metre, place, and the names of the columns behind them.</summary>
    public static readonly string[] Columns =
    [
        "metre",
        "step",
        "none",
        "short",
        "two",
        "long",
        "leap-short",
        "leap-two",
        "leap-long",
        "first",
        "last",
    ];

    private static readonly Lazy<MetreTable[]> Known = new(() =>
        [
            .. DataTable
                .Parse("metres.txt", BuiltInData.Text("metres.txt"), Columns)
                .Rows.GroupBy(row => row["metre"], StringComparer.Ordinal)
                .Select(rows => new MetreTable(
                    Read(rows.Key),
                    [.. rows.Select(row => Columns[2..9].Select(row.Number).ToArray())],
                    [.. rows.Select(row => row.Number("first"))],
                    [.. rows.Select(row => row.Number("last"))]
                )),
        ]
    );

    public static IReadOnlyList<MetreTable> BuiltIn => Known.Value;

    private static TimeSignature Read(string text)
    {
        var parts = text.Split('/');
        return new(
            int.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture),
            int.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture)
        );
    }
}
