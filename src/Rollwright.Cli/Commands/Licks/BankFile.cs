using System.CommandLine;
using System.Text;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Licks;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands.Licks;

/// <summary>The file of a player's own licks, merged with those of the program.</summary>
/// <param name="Path">Where it is, or would be.</param>
/// <param name="Bank">All licks.</param>
/// <param name="HasFaults">Lines of the file were left out, and that was said.</param>
internal sealed record BankFile(string Path, LickBank Bank, bool HasFaults)
{
    public static Option<string?> Option { get; } =
        new("--bank") { Description = $"The file of your own licks; {Usual} by default.", Recursive = true };

    /// <summary>Exit code of a command that has done its work.</summary>
    public int Done => HasFaults ? Exit.Wrong : Exit.Done;

    private static string Usual =>
        System.IO.Path.Combine(
            Environment.GetFolderPath(
                Environment.SpecialFolder.ApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            ),
            "rollwright",
            "licks.txt"
        );

    /// <summary>Reads the file where there is one; what is wrong in it is said and costs no other line.</summary>
    /// <param name="parsed">The request.</param>
    /// <param name="mayBeNew">Whether a file that is named need not be there yet.</param>
    public static BankFile Open(ParseResult parsed, bool mayBeNew = false)
    {
        var named = parsed.GetValue(Option);
        var path = named ?? Usual;
        if ((named is null || mayBeNew) && !File.Exists(path) && !Directory.Exists(path))
            return new(path, LickBank.BuiltIn, false);
        var (bank, faults) = LickBank.BuiltIn.Read(path, Text(path));
        foreach (var fault in faults)
            Exit.Say(fault.Message);
        return new(path, bank, !faults.IsEmpty);
    }

    /// <summary>Whether the lick comes from the player's file.</summary>
    public bool IsOwn(Lick lick) => Bank.NumberOf(lick) > LickTable.All.Length;

    /// <summary>Adds a row at the end of the file; the rest of it stays as it is.</summary>
    public void Append(Lick lick)
    {
        var text = File.Exists(Path) ? Text(Path) : "";
        var newLine = text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        if (text.Length > 0 && !text.EndsWith('\n'))
            text += newLine;
        var columns = DataTable.ParseAll(Path, text).Columns;
        if (columns.IsEmpty)
        {
            columns = [.. LickRow.Head.Split('|', StringSplitOptions.TrimEntries)];
            text += LickRow.Head + newLine;
        }
        var row = LickRow.Write(lick, columns);
        // What would not read back must not be written: a head without a needed column, or without "next".
        var (bank, _) = LickBank.BuiltIn.Read(Path, text + row + newLine);
        if (bank.Find(lick.Name) is not { } kept || kept.Next != lick.Next)
            throw new RequestException($"{Path}:1: the first row names the columns; write '{LickRow.Head}'");
        OutputFile.Write(Path, Encoding.UTF8.GetBytes(text + row + newLine));
    }

    private static string Text(string path) => Encoding.UTF8.GetString(InputFile.Read(path)).TrimStart('\uFEFF');
}
