using System.Collections.Immutable;
using System.CommandLine;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Tunings;
using Rollwright.Cli.Files;
using Rollwright.Formats.TextTab;
using Rollwright.Music.Chords;

namespace Rollwright.Cli.Commands.Licks;

/// <summary>
/// <c>rollwright licks add --tab "3.2Ts4 2.0I 5.0T 1.0M" --name "…"</c>: a player's own lick. Chord, role and level are
/// worked out where they are not given, shown, and kept when the player agrees.
/// </summary>
internal static class AddLick
{
    private static readonly Option<string> Tab = new("--tab")
    {
        Description = "A token a step, such as \"3.2Ts4 2.0I 5.0T 1.0M\" (docs/licks.md).",
        Required = true,
    };
    private static readonly Option<string> Name = new("--name") { Description = "What the hands do.", Required = true };
    private static readonly Option<string?> ChordName = LickOptions.Chord();
    private static readonly Option<string?> Next = LickOptions.Next();
    private static readonly Option<string?> Role = LickOptions.Role();
    private static readonly Option<int?> Level = new("--level") { Description = "1 (first year) to 5 (performer)." };
    private static readonly Option<string?> TuningId = LickOptions.Tuning();
    private static readonly Option<string?> Beats = new("--beats")
    {
        Description = "twos or threes: how the beats divide. Worked out where it is not given.",
    };
    private static readonly Option<bool> Yes = new("--yes") { Description = "Keep it without asking." };

    public static Command Build()
    {
        var command = new Command(
            "add",
            "Adds a lick of your own: works out its chord and role and asks whether to keep it."
        )
        {
            Tab,
            Name,
            ChordName,
            Next,
            Role,
            Level,
            TuningId,
            Beats,
            Yes,
        };
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var file = BankFile.Open(parsed, mayBeNew: true);
        var (lick, others) = WorkedOut(parsed);
        var faults = file.Bank.Faults(lick);
        if (!faults.IsEmpty)
        {
            foreach (var fault in faults)
                Exit.Say($"{(fault.Rule is "name" or "same-name" ? "--name" : "--tab")}: {fault}");
            return Exit.Wrong;
        }
        Show(lick, others);
        if (!parsed.GetValue(Yes) && !Agrees(file.Path))
            return Exit.No;
        file.Append(lick);
        Exit.Say($"kept in {file.Path}");
        return Exit.Done;
    }

    private static LickProposal WorkedOut(ParseResult parsed) =>
        LickProposal.Of(
            parsed.GetRequiredValue(Name),
            LickOptions.TuningOf(parsed.GetValue(TuningId)) ?? TuningTable.OpenG,
            Read(parsed.GetRequiredValue(Tab)),
            new()
            {
                Next = LickOptions.ChordOf(parsed.GetValue(Next), "--next"),
                Chord = LickOptions.ChordOf(parsed.GetValue(ChordName), "--chord"),
                Level = LickOptions.LevelOf(parsed.GetValue(Level)),
                Role = LickOptions.RoleOf(parsed.GetValue(Role)),
                IsInThrees = Threes(parsed),
            }
        );

    private static ImmutableArray<LickStep> Read(string tab)
    {
        try
        {
            return LickTab.Read(tab);
        }
        catch (LickTabException wrong)
        {
            throw new RequestException($"--tab:1:{wrong.Offset + 1}: {wrong.Message}");
        }
    }

    private static bool? Threes(ParseResult parsed) =>
        parsed.GetValue(Beats) switch
        {
            null => null,
            "twos" => false,
            "threes" => true,
            var other => throw new RequestException($"--beats: '{other}' is neither twos nor threes"),
        };

    private static void Show(Lick lick, ImmutableArray<Chord> others)
    {
        Exit.Say($"{lick.Name}: {LickFacts.Of(lick)}");
        if (others.Length > 0)
            Exit.Say($"it fits {string.Join(" and ", others)} too; --chord says which is meant");
        Console.Error.Write(TextTabWriter.Write(LickBreak.Of(lick), LickWords.TabStyle));
    }

    private static bool Agrees(string path)
    {
        if (Console.IsInputRedirected)
            throw new RequestException("nothing was kept: give --yes to keep it without being asked");
        Console.Error.Write($"Keep it in {path}? y or n: ");
        return Console.ReadLine()?.Trim() is "y" or "Y" or "yes";
    }
}
