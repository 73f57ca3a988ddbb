using System.CommandLine;
using Rollwright.Banjo.Licks;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands.Licks;

/// <summary><c>rollwright licks list --chord C --role fill</c>: licks by what they are for.</summary>
internal static class ListLicks
{
    private static readonly Option<string?> Chord = LickOptions.Chord();
    private static readonly Option<string?> Next = LickOptions.Next();
    private static readonly Option<string?> Role = LickOptions.Role();
    private static readonly Option<string?> Tuning = LickOptions.Tuning();
    private static readonly Option<int?> Level = new("--level") { Description = "The highest level, 1 to 5." };
    private static readonly Option<string?> Register = new("--register")
    {
        Description = "low (frets 0 to 5), middle (6 to 9) or up (from 10).",
    };
    private static readonly Option<string?> Slurs = new("--slurs")
    {
        Description = "with (slides, hammer-ons, pull-offs) or without.",
    };
    private static readonly Option<bool> Json = LickOptions.Json();

    public static Command Build()
    {
        var command = new Command("list", "Lists licks; exit code 1 where there is none.")
        {
            Chord,
            Next,
            Role,
            Level,
            Tuning,
            Register,
            Slurs,
            Json,
        };
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var search = new LickSearch(
            LickOptions.ChordOf(parsed.GetValue(Chord), "--chord"),
            LickOptions.ChordOf(parsed.GetValue(Next), "--next"),
            LickOptions.RoleOf(parsed.GetValue(Role)),
            LickOptions.LevelOf(parsed.GetValue(Level)),
            LickOptions.TuningOf(parsed.GetValue(Tuning))?.Id,
            RegisterOf(parsed.GetValue(Register)),
            parsed.GetValue(Slurs) switch
            {
                null => null,
                "with" => true,
                "without" => false,
                var other => throw new RequestException($"--slurs: '{other}' is neither with nor without"),
            }
        );
        var file = BankFile.Open(parsed);
        return Answer(file, search.In(file.Bank), parsed.GetValue(Json));
    }

    public static int Answer(BankFile file, IReadOnlyCollection<Lick> found, bool asJson)
    {
        if (asJson)
            Console.WriteLine(LickWords.Json(file, found));
        else
            LickWords.PrintList(file, found);
        Exit.Say(found.Count == 1 ? "1 lick" : $"{found.Count} licks");
        return found.Count == 0 ? Math.Max(Exit.No, file.Done) : file.Done;
    }

    private static Register? RegisterOf(string? word)
    {
        if (word is null)
            return null;
        foreach (var register in Enum.GetValues<Register>())
        {
            if (Registers.Word(register) == word)
                return register;
        }
        throw new RequestException($"--register: '{word}' is none of low, middle, up");
    }
}
