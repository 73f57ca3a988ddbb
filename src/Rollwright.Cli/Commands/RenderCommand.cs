using System.CommandLine;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright render BREAK -o FILE</c>: a break in another form.</summary>
internal static class RenderCommand
{
    public static Command Build()
    {
        var input = new Argument<string>("break") { Description = "A break in JSON or MusicXML; - is standard input." };
        var output = new Option<string>("--output", "-o")
        {
            Description =
                $"The file to write; its ending says the form: {Forms.Known}. - is plain-text tab on standard output.",
            DefaultValueFactory = _ => "-",
        };
        var page = new PageOptions();
        var command = new Command("render", "Writes a break in another form.") { input, output };
        page.AddTo(command);
        command.SetAction(parsed =>
        {
            var path = parsed.GetRequiredValue(output);
            var form = Forms.OfFile(path);
            var choice = page.Read(parsed);
            if (choice.Spots)
                throw new RequestException(
                    "--show spots: a break alone does not know them; ask 'arrange' with its tune"
                );
            PageOutput.Write(path, form, BreakInput.Read(parsed.GetRequiredValue(input)), choice);
            return Exit.Done;
        });
        return command;
    }
}
