using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Lessons.JamSheets;

/// <summary>A way to play a key on the guitar with open chords.</summary>
/// <param name="Shapes">"G", "Em": the chord of the key as the hand holds it.</param>
/// <param name="Capo">Fret of the capo, 0 for none.</param>
public sealed record GuitarKey(string Shapes, int Capo);

/// <summary>Where a guitar finds open chords: <c>data/guitar-keys.txt</c>.</summary>
public static class GuitarKeys
{
    // Beyond this the neck is short (assumption).
    private const int HighestCapo = 5;

    private static readonly Lazy<ImmutableArray<Row>> Known = new(() =>
        Parse("guitar-keys.txt", BuiltInData.Text("guitar-keys.txt"))
    );

    /// <summary>A row of the table.</summary>
    public sealed record Row(string Shapes, PitchName Tonic, bool IsMinor, int Price);

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Row> Parse(string file, string text) =>
        [
            .. DataTable
                .Parse(file, text, "position", "kind", "price", "source")
                .Rows.Select(row => new Row(
                    row["position"],
                    PitchName.Parse(row["position"].TrimEnd('m'))
                        ?? throw row.Wrong($"'{row["position"]}' is not a chord"),
                    row["kind"] switch
                    {
                        "minor" => true,
                        "major" => false,
                        var other => throw row.Wrong($"'{other}' is neither major nor minor"),
                    },
                    row.Whole("price")
                )),
        ];

    /// <summary>The cheapest ways, at most two, the second only where it costs no more.</summary>
    public static ImmutableArray<GuitarKey> For(Key key)
    {
        var isMinor = key.Mode is Mode.Minor or Mode.Dorian or Mode.Phrygian or Mode.Locrian;
        var ways =
            from row in Known.Value
            where row.IsMinor == isMinor
            let capo = (((key.Tonic.PitchClass - row.Tonic.PitchClass) % 12) + 12) % 12
            where capo <= HighestCapo
            orderby row.Price + capo, capo
            select (Way: new GuitarKey(row.Shapes, capo), Price: row.Price + capo);
        var best = ways.Take(2).ToList();
        return [.. best.Where(way => way.Price == best[0].Price).Select(way => way.Way)];
    }
}
