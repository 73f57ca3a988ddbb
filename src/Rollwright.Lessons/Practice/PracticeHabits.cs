using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Lessons.Practice;

/// <summary>How a person practises: the values of <c>data/practice.txt</c>, which says where each comes from.</summary>
public sealed record PracticeHabits
{
    private static readonly Lazy<PracticeHabits> BuiltIn = new(() =>
        Parse("practice.txt", BuiltInData.Text("practice.txt"))
    );

    public static PracticeHabits Usual => BuiltIn.Value;

    /// <summary>Where a ladder starts, as a share of what is comfortable or asked; above 0, at most 1.</summary>
    public required double Start { get; init; }

    /// <summary>One rung, as a share of the target; above 0, at most 1.</summary>
    public required double Step { get; init; }

    /// <summary>Clean passes in a row before a rung up, 1 to 100.</summary>
    public required int Clean { get; init; }

    /// <summary>Passes with a mistake in a row before a rung down, 1 to 100.</summary>
    public required int Spoiled { get; init; }

    /// <summary>Rungs below where it was left that a returning phrase starts, 0 to 20.</summary>
    public required int Overnight { get; init; }

    /// <summary>Phrases taken up in one session, 1 to 20.</summary>
    public required int New { get; init; }

    /// <summary>Minutes of a session, 5 to 180.</summary>
    public required int Minutes { get; init; }

    /// <summary>Days after the first, second, third… day of a phrase until it comes back, each 1 to 365; the last one holds on.</summary>
    public required ImmutableArray<int> Returns { get; init; }

    /// <exception cref="DataException">A row is wrong, unknown, twice there or missing.</exception>
    public static PracticeHabits Parse(string file, string text)
    {
        var rows = new Dictionary<string, DataTable.Row>(StringComparer.Ordinal);
        foreach (var row in DataTable.Parse(file, text, "name", "value", "unit", "source", "meaning").Rows)
        {
            if (!rows.TryAdd(row["name"], row))
                throw row.Wrong($"'{row["name"]}' stands there twice");
        }
        var habits = new PracticeHabits
        {
            Start = Taken("start", 1, 100) / 100.0,
            Step = Taken("step", 1, 100) / 100.0,
            Clean = Taken("clean", 1, 100),
            Spoiled = Taken("spoiled", 1, 100),
            Overnight = Taken("overnight", 0, 20),
            New = Taken("new", 1, 20),
            Minutes = Taken("minutes", 5, 180),
            Returns = TakenDays(),
        };
        return rows.Count == 0
            ? habits
            : throw rows
                .Values.First()
                .Wrong($"'{rows.Keys.First()}' is no habit of practice; see the file's own list");

        DataTable.Row Row(string name) =>
            rows.Remove(name, out var row) ? row : throw new DataException(file, 1, $"'{name}' is missing");

        int Taken(string name, int least, int most)
        {
            var row = Row(name);
            var value = row.Whole("value");
            return value >= least && value <= most
                ? value
                : throw row.Wrong("value", $"{name} is {value}; it must be {least} to {most}");
        }

        ImmutableArray<int> TakenDays()
        {
            var row = Row("returns");
            var days = row["value"].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            var read = ImmutableArray.CreateBuilder<int>(days.Length);
            foreach (var day in days)
                read.Add(
                    int.TryParse(day, out var number) && number is >= 1 and <= 365
                        ? number
                        : throw row.Wrong("value", $"returns: '{day}' is no number of days from 1 to 365")
                );
            return read.Count > 0 ? read.ToImmutable() : throw row.Wrong("value", "returns names no day");
        }
    }
}
