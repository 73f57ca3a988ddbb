using System.CommandLine;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright render BREAK -o FILE</c>: a break in another form.</summary>
internal static class RenderCommand
{
    public static Command Build()
    {
        var input = new Argument<string>("break")
        {
            Description = "A break in JSON, MusicXML or plain-text tab; - is standard input.",
        };
        var output = new Option<string>("--output", "-o")
        {
            Description =
                $"The file to write; its ending says the form: {Forms.Known}. - is plain-text tab on standard output.",
            DefaultValueFactory = _ => "-",
        };
        var command = new Command("render", "Writes a break in another form.") { input, output };
        command.SetAction(parsed =>
        {
            var path = parsed.GetRequiredValue(output);
            var form = Forms.OfFile(path);
            OutputFile.Write(path, form.Write(BreakInput.Read(parsed.GetRequiredValue(input))));
            return Exit.Done;
        });
        return command;
    }
}
