using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Rollwright.Banjo.Data;
using Rollwright.Listening.Hands.Strings;

namespace Rollwright.Listening.Banjos;

/// <summary>A learnt banjo as a table that people can read: a row for its pitch, two for how notes stop, one for every note.</summary>
public static class OwnBanjoText
{
    private const string Pitch = "cents";
    private const string Stopped = "stopped";
    private const string Ringing = "ringing";
    private const string None = "none";

    public static string Write(OwnBanjo banjo)
    {
        ArgumentNullException.ThrowIfNull(banjo);
        var text = new StringBuilder();
        text.Append("# A banjo as it is heard, learnt from a slow open roll.\n");
        text.Append("# cents: how far above its pitch it is heard when it is in tune.\n");
        text.Append(
            "# stopped, ringing: how much weaker a note is, in dB (mean, spread), when another begins on its string;\n"
        );
        text.Append(
            "# and on another string. none where the frets told no difference; left out where no frets were played.\n"
        );
        text.Append("# note: MIDI key; then the shares of its partials, the first one first.\n");
        text.Append("what | values\n");
        Row(Pitch, [banjo.Cents], "0.0");
        if (banjo.Stops is { } stops)
        {
            Row(Stopped, [stops.Stopped.Mean, stops.Stopped.Spread], "0.0");
            Row(Ringing, [stops.Ringing.Mean, stops.Ringing.Spread], "0.0");
        }
        else if (banjo.KnowsStops)
            text.Append(CultureInfo.InvariantCulture, $"{Stopped} | {None}\n");
        foreach (var (key, partials) in banjo.Notes)
            Row(string.Create(CultureInfo.InvariantCulture, $"note {key}"), partials, "0.0000");
        return text.ToString();

        void Row(string what, IEnumerable<double> values, string form) =>
            text.Append(
                CultureInfo.InvariantCulture,
                $"{what} | {string.Join(' ', values.Select(value => value.ToString(form, CultureInfo.InvariantCulture)))}\n"
            );
    }

    /// <param name="file">For messages.</param>
    /// <param name="text">What <see cref="Write"/> wrote.</param>
    /// <exception cref="DataException">A row is wrong, or one is missing.</exception>
    public static OwnBanjo Parse(string file, string text)
    {
        double? cents = null;
        StopSense.Normal? stopped = null;
        StopSense.Normal? ringing = null;
        var knows = false;
        var notes = ImmutableSortedDictionary.CreateBuilder<int, ImmutableArray<double>>();
        foreach (var row in DataTable.Parse(file, text, "what", "values").Rows)
        {
            switch (row["what"].Split(' '))
            {
                case [Pitch]:
                    cents = Numbers(row, 1, -50, 50)[0];
                    break;
                case [Stopped] when row["values"] == None:
                    knows = true;
                    break;
                case [Stopped]:
                    (stopped, knows) = (Normal(row), true);
                    break;
                case [Ringing]:
                    ringing = Normal(row);
                    break;
                case ["note", var key]
                    when int.TryParse(key, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                        && number < 128:
                    notes[number] = Shares(row);
                    break;
                default:
                    throw row.Wrong($"'{row["what"]}' is nothing that a banjo has here");
            }
        }
        if (cents is not { } offset || notes.Count == 0 || stopped is null != ringing is null)
            throw new DataException(
                file,
                1,
                "cents, a note, or one of stopped and ringing is missing; learn the banjo anew"
            );
        return new(offset, notes.ToImmutable(), stopped is null ? null : new(stopped, ringing!), knows);
    }

    private static StopSense.Normal Normal(DataTable.Row row)
    {
        var values = Numbers(row, 2, -200, 200);
        return values[1] > 0 ? new(values[0], values[1]) : throw row.Wrong("a spread is more than 0");
    }

    private static ImmutableArray<double> Shares(DataTable.Row row)
    {
        var shares = Numbers(row, (int)ListeningTable.Of("partials"), 0, 1);
        var sum = shares.Sum();
        return sum > 0 ? [.. shares.Select(share => share / sum)] : throw row.Wrong("a note has a partial at least");
    }

    private static ImmutableArray<double> Numbers(DataTable.Row row, int count, double least, double most)
    {
        var cells = row["values"].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var numbers = cells
            .Select(cell =>
                double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
                    ? number
                    : double.NaN
            )
            .ToImmutableArray();
        return numbers.Length == count && numbers.All(number => number >= least && number <= most)
            ? numbers
            : throw row.Wrong($"{count} numbers from {least} to {most} are wanted");
    }
}
