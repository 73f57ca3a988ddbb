using System.CommandLine;
using Rollwright.Banjo.Licks;
using Rollwright.Cli.Files;
using Rollwright.Formats.TextTab;

namespace Rollwright.Cli.Commands.Licks;

/// <summary><c>rollwright licks show NAME|NUMBER -o FILE</c>: one lick as a small break.</summary>
internal static class ShowLick
{
    private static readonly Argument<string[]> Name = new("lick")
    {
        Description = "Its name or its number in the list.",
        Arity = ArgumentArity.OneOrMore,
    };
    private static readonly Option<string?> Output = new("--output", "-o")
    {
        Description =
            $"The file to write; its ending says the form: {Forms.Known}. Without it, words and tab are printed.",
    };
    private static readonly Option<bool> Json = LickOptions.Json();

    public static Command Build()
    {
        var command = new Command("show", "Shows a lick as tab with fingers, or writes it in another form.")
        {
            Name,
            Output,
            Json,
        };
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var file = BankFile.Open(parsed);
        var name = string.Join(' ', parsed.GetRequiredValue(Name));
        var lick =
            file.Bank.Find(name)
            ?? throw new RequestException(
                $"no lick is called '{name}', and numbers go to {file.Bank.Licks.Length}; 'rollwright licks find' looks for words of a name"
            );
        if (parsed.GetValue(Output) is { } path)
            OutputFile.Write(path, Forms.OfFile(path).Write(LickBreak.Of(lick)));
        else if (parsed.GetValue(Json))
            Console.WriteLine(LickWords.Json(file, lick));
        else
            Print(file, lick);
        return file.Done;
    }

    private static void Print(BankFile file, Lick lick)
    {
        Console.WriteLine($"{file.Bank.NumberOf(lick)}: {LickFacts.Of(lick)}{(file.IsOwn(lick) ? ", your own" : "")}");
        Console.WriteLine(LickTabWriter.Write(lick.Steps));
        Console.WriteLine();
        Console.Write(TextTabWriter.Write(LickBreak.Of(lick), LickWords.TabStyle));
    }
}
