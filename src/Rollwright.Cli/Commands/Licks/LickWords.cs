using System.Text.Json;
using Rollwright.Banjo.Licks;
using Rollwright.Formats.TextTab;

namespace Rollwright.Cli.Commands.Licks;

/// <summary>What is said of a lick: a row of a list, or JSON.</summary>
internal static class LickWords
{
    /// <summary>A lick is learnt with both hands' fingers.</summary>
    public static TextTabOptions TabStyle { get; } = new(LeftFingers: true);

    public static void PrintList(BankFile file, IReadOnlyCollection<Lick> licks)
    {
        if (licks.Count == 0)
            return;
        string[][] rows = [.. licks.Select(lick => Row(file, lick))];
        int[] widths = [.. Enumerable.Range(0, rows[0].Length).Select(i => rows.Max(row => row[i].Length))];
        foreach (var row in rows)
            Console.WriteLine(
                string.Join("  ", row.Select((cell, i) => i == 0 ? cell.PadLeft(widths[i]) : cell.PadRight(widths[i])))
                    .TrimEnd()
            );
    }

    public static string Json(BankFile file, IEnumerable<Lick> licks) =>
        JsonSerializer.Serialize(licks.Select(lick => AsJson(file, lick)), Plain);

    public static string Json(BankFile file, Lick lick) => JsonSerializer.Serialize(AsJson(file, lick), Plain);

    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static string[] Row(BankFile file, Lick lick) =>
        [
            $"{file.Bank.NumberOf(lick)}",
            lick.Chord + (lick.Next is { } next ? $" to {next}" : ""),
            LickRoles.Word(lick.Role),
            $"level {lick.Level}",
            $"{lick.Length} steps",
            Registers.Word(lick.Register),
            lick.Tuning.Id,
            lick.Name,
        ];

    private static object AsJson(BankFile file, Lick lick) =>
        new
        {
            number = file.Bank.NumberOf(lick),
            name = lick.Name,
            role = LickRoles.Word(lick.Role),
            chord = lick.Chord.ToString(),
            next = lick.Next?.ToString(),
            tuning = lick.Tuning.Id,
            level = lick.Level,
            beats = LickFacts.Beats(lick),
            steps = lick.Length,
            register = Registers.Word(lick.Register),
            slurs = lick.Slurs,
            leftFingers = lick.LeftFingers,
            tab = LickTabWriter.Write(lick.Steps),
            own = file.IsOwn(lick),
        };
}
