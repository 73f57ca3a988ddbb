using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Arranging.Advice;

/// <summary>The positions of <c>data/settings.txt</c> and the capos of <c>data/capos.txt</c>.</summary>
public static class SettingTable
{
    private static readonly Lazy<ImmutableArray<Place>> BuiltInPlaces = new(() =>
        ReadPlaces("settings.txt", BuiltInData.Text("settings.txt"))
    );
    private static readonly Lazy<ImmutableDictionary<int, int>> BuiltInCapos = new(() =>
        ReadCapos("capos.txt", BuiltInData.Text("capos.txt"))
    );

    /// <summary>A tuning with a position that the hands know in it.</summary>
    public sealed record Place(Tuning Tuning, PitchName Tonic, ImmutableArray<Mode> Modes, int Price);

    public static ImmutableArray<Place> Places => BuiltInPlaces.Value;

    /// <summary>Price by fret of the capo.</summary>
    public static ImmutableDictionary<int, int> Capos => BuiltInCapos.Value;

    public static ImmutableArray<Place> ReadPlaces(string file, string text)
    {
        var places = ImmutableArray.CreateBuilder<Place>();
        foreach (var row in DataTable.Parse(file, text, "tuning", "position", "modes", "price", "source").Rows)
        {
            var tuning = TuningTable.Find(row["tuning"]) ?? throw row.Wrong($"no tuning is called '{row["tuning"]}'");
            var tonic = PitchName.Parse(row["position"]) ?? throw row.Wrong($"'{row["position"]}' is not a note");
            ImmutableArray<Mode> modes =
                row["modes"] == "*"
                    ? [.. Enum.GetValues<Mode>()]
                    :
                    [
                        .. row["modes"]
                            .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                            .Select(word =>
                                Enum.TryParse<Mode>(word, true, out var mode)
                                    ? mode
                                    : throw row.Wrong($"'{word}' is not a mode")
                            ),
                    ];
            places.Add(new(tuning, tonic, modes, row.Whole("price")));
        }
        return places.ToImmutable();
    }

    public static ImmutableDictionary<int, int> ReadCapos(string file, string text) =>
        DataTable
            .Parse(file, text, "fret", "price", "source")
            .Rows.ToImmutableDictionary(row => row.Whole("fret"), row => row.Whole("price"));
}
