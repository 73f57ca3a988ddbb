using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>A lick as a row of a data file.</summary>
public static class LickRow
{
    /// <summary>The columns of a file of licks; "next" may be left out.</summary>
    public const string Head = "name | role | tuning | chord | next | level | beats | tab";

    internal static readonly string[] Needed = ["name", "role", "tuning", "chord", "level", "beats", "tab"];

    /// <exception cref="DataException">A cell is wrong; the message says where, and what it may be.</exception>
    public static Lick Read(DataTable.Row row)
    {
        if (row["name"].Length == 0)
            throw row.Wrong("name", "a lick needs a name that says what the hands do");
        var role =
            LickRoles.Find(row["role"])
            ?? throw row.Wrong("role", $"role '{row["role"]}' is none of {LickRoles.Known}");
        var tuning =
            TuningTable.Find(row["tuning"])
            ?? throw row.Wrong(
                "tuning",
                $"no tuning is called '{row["tuning"]}'; known are {string.Join(", ", TuningTable.All.Select(known => known.Id))}"
            );
        if (row["level"] is not [>= '1' and <= '5'])
            throw row.Wrong("level", $"level '{row["level"]}' is not 1 to 5");
        if (row["beats"] is not ("twos" or "threes"))
            throw row.Wrong("beats", $"beats '{row["beats"]}' is neither twos nor threes");
        var next = row.Has("next") && row["next"] != "-" ? ChordOf(row, "next") : (Chord?)null;
        try
        {
            return new(
                row["name"],
                role,
                tuning,
                ChordOf(row, "chord"),
                row["level"][0] - '0',
                row["beats"] == "threes",
                LickTab.Read(row["tab"])
            )
            {
                Next = next,
            };
        }
        catch (LickTabException wrong)
        {
            throw row.Wrong("tab", wrong.Message, wrong.Offset);
        }
    }

    /// <summary>The row of a lick for a file with these columns; unknown columns get "-".</summary>
    public static string Write(Lick lick, IEnumerable<string> columns) =>
        string.Join(" | ", columns.Select(column => Cell(lick, column)));

    private static string Cell(Lick lick, string column) =>
        column switch
        {
            "name" => lick.Name,
            "role" => LickRoles.Word(lick.Role),
            "tuning" => lick.Tuning.Id,
            "chord" => lick.Chord.ToString(),
            "next" => lick.Next?.ToString() ?? "-",
            "level" => $"{lick.Level}",
            "beats" => lick.IsInThrees ? "threes" : "twos",
            "tab" => LickTabWriter.Write(lick.Steps),
            _ => "-",
        };

    private static Chord ChordOf(DataTable.Row row, string column) =>
        Chord.Parse(row[column]) ?? throw row.Wrong(column, $"'{row[column]}' is not a chord such as G, Em, D7, F#m");
}
