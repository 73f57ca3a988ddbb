using System.CommandLine;
using Rollwright.Banjo.Licks;

namespace Rollwright.Cli.Commands.Licks;

/// <summary><c>rollwright licks find slide third</c>, <c>rollwright licks find 3.2Ts4 2.0I</c>.</summary>
internal static class FindLicks
{
    private static readonly Argument<string[]> What = new("words")
    {
        Description = "Words of name, role, chord or tuning, or a piece of tab such as 3.2Ts4 2.0I or 3.2 2.0.",
        Arity = ArgumentArity.OneOrMore,
    };
    private static readonly Option<bool> Json = LickOptions.Json();

    public static Command Build()
    {
        var command = new Command(
            "find",
            "Finds licks by words or by a piece of their tab; exit code 1 where there is none."
        )
        {
            What,
            Json,
        };
        command.SetAction(parsed =>
        {
            var file = BankFile.Open(parsed);
            var found = LickSearch.Find(file.Bank, string.Join(' ', parsed.GetRequiredValue(What)));
            return ListLicks.Answer(file, found, parsed.GetValue(Json));
        });
        return command;
    }
}
