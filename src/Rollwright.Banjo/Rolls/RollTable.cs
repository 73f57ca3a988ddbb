using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Rolls;

/// <summary>The rolls of <c>data/rolls.txt</c>.</summary>
public static class RollTable
{
    private static readonly Lazy<ImmutableArray<Roll>> BuiltIn = new(() =>
        Parse("rolls.txt", BuiltInData.Text("rolls.txt"))
    );

    public static ImmutableArray<Roll> All => BuiltIn.Value;

    /// <exception cref="DataException">A row is wrong: another finger than T I M, or one twice running.</exception>
    public static ImmutableArray<Roll> Parse(string file, string text)
    {
        var rolls = ImmutableArray.CreateBuilder<Roll>();
        foreach (var row in DataTable.Parse(file, text, "name", "fingers", "strings", "level", "source").Rows)
        {
            var fingers = Cells<RightFinger>(
                row,
                "fingers",
                cell => Enum.TryParse<RightFinger>(cell, out var f) ? f : null
            );
            var strings = Cells<int>(
                row,
                "strings",
                cell => int.TryParse(cell, out var s) && s is >= 1 and <= Neck.Strings ? s : null
            );
            if (fingers.Length != strings.Length || fingers.Length < 3)
                throw row.Wrong("a roll has as many strings as fingers, three at least");
            for (var i = 1; i < fingers.Length; i++)
            {
                if (fingers[i] == fingers[i - 1])
                    throw row.Wrong($"{fingers[i]} plays twice running at step {i + 1}");
                if (strings[i] == strings[i - 1])
                    throw row.Wrong($"string {strings[i]} is plucked twice running at step {i + 1}");
            }
            var level = row.Whole("level");
            if (level is not (>= 1 and <= 5))
                throw row.Wrong($"level {level} is not 1 to 5");
            rolls.Add(new(row["name"], fingers, strings, level));
        }
        return rolls.ToImmutable();
    }

    private static ImmutableArray<T> Cells<T>(DataTable.Row row, string column, Func<string, T?> read)
        where T : struct
    {
        var cells = ImmutableArray.CreateBuilder<T>();
        foreach (var cell in row[column].Split(' ', StringSplitOptions.RemoveEmptyEntries))
            cells.Add(read(cell) ?? throw row.Wrong($"{column}: '{cell}' is not known here"));
        return cells.ToImmutable();
    }
}
