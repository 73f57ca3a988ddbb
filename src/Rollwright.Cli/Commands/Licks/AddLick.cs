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

    private static (Lick Lick, Chord[] Others) WorkedOut(ParseResult parsed)
    {
        var tuning = LickOptions.TuningOf(parsed.GetValue(TuningId)) ?? TuningTable.OpenG;
        var next = LickOptions.ChordOf(parsed.GetValue(Next), "--next");
        var named = LickOptions.ChordOf(parsed.GetValue(ChordName), "--chord");
        var level = LickOptions.LevelOf(parsed.GetValue(Level));
        var steps = Read(parsed.GetRequiredValue(Tab));
        var guess = LickGuess.Of(tuning, steps, next, LickOptions.RoleOf(parsed.GetValue(Role)), Threes(parsed));
        var lick = new Lick(
            parsed.GetRequiredValue(Name).Trim(),
            guess.Role,
            tuning,
            named ?? guess.Chords[0],
            level ?? guess.Level,
            guess.IsInThrees,
            steps
        )
        {
            Next = next,
        };
        Chord[] others =
        [
            .. guess
                .Chords.Where(chord => chord != lick.Chord && ChordFit.Misfits(lick with { Chord = chord }).IsEmpty)
                .Take(2),
        ];
        return (lick, others);
    }

    private static System.Collections.Immutable.ImmutableArray<LickStep> Read(string tab)
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

    private static void Show(Lick lick, Chord[] others)
    {
        Exit.Say($"{lick.Name}: {LickWords.Facts(lick)}");
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
