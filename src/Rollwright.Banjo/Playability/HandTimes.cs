using Rollwright.Banjo.Data;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Playability;

/// <summary>The times of <c>data/hands.txt</c>, in seconds (per mm where the name says so); what is not said is refused.</summary>
public sealed class HandTimes
{
    private static readonly string[] Names =
    [
        "pluck",
        "thumb-again",
        "index-again",
        "middle-again",
        "string-away",
        "same-string",
        "sound",
        "hop",
        "lay",
        "place",
        "place-more",
        "shift",
        "shift-mm",
        "stretch-mm",
        "hammer-on",
        "pull-off",
        "slide",
        "slide-mm",
        "choke",
        "limiting",
    ];

    private static readonly Lazy<HandTimes> BuiltIn = new(() => Parse("hands.txt", BuiltInData.Text("hands.txt")));

    private readonly Dictionary<string, double> values;

    private HandTimes(Dictionary<string, double> values) => this.values = values;

    public static HandTimes Usual => BuiltIn.Value;

    public double Pluck => values["pluck"];

    public double StringAway => values["string-away"];

    public double SameString => values["same-string"];

    public double Sound => values["sound"];

    public double Hop => values["hop"];

    public double Lay => values["lay"];

    public double Place => values["place"];

    public double PlaceMore => values["place-more"];

    public double Shift => values["shift"];

    public double ShiftPerMm => values["shift-mm"];

    public double StretchPerMm => values["stretch-mm"];

    public double SlidePerMm => values["slide-mm"];

    /// <summary>Share above the slowest tempo, 0.05 for 5 per cent.</summary>
    public double Limiting => values["limiting"] / 100;

    public double Again(RightFinger finger) =>
        finger switch
        {
            RightFinger.T => values["thumb-again"],
            RightFinger.I => values["index-again"],
            _ => values["middle-again"],
        };

    public double Slur(SlurKind kind) => values[SlurNames.Word(kind)];

    /// <exception cref="DataException">A row is wrong, unknown, twice there or missing.</exception>
    public static HandTimes Parse(string file, string text)
    {
        var values = new Dictionary<string, double>(StringComparer.Ordinal);
        var table = DataTable.Parse(file, text, "name", "value", "unit", "source", "meaning");
        foreach (var row in table.Rows)
        {
            if (!Names.Contains(row["name"], StringComparer.Ordinal))
                throw row.Wrong($"'{row["name"]}' is no time of the hands; known are {string.Join(", ", Names)}");
            var value = row.Number("value");
            if (value is not (> 0 and <= 100))
                throw row.Wrong($"value {row["value"]} is not above 0 and at most 100");
            if (!values.TryAdd(row["name"], value))
                throw row.Wrong($"'{row["name"]}' stands there twice");
        }
        var missing = Array.Find(Names, name => !values.ContainsKey(name));
        return missing is null ? new(values) : throw new DataException(file, 1, $"'{missing}' is missing");
    }
}
