using System.CommandLine;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright render BREAK -o FILE</c>: a break in another form; as sound alone or with a band.</summary>
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
        var page = new PageOptions();
        var sound = new SoundOptions();
        var command = new Command("render", "Writes a break in another form, or sounds it, alone or with a band.")
        {
            input,
            output,
        };
        sound.AddTo(command);
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
            if (!SoundOutput.IsSound(form.Ending))
                sound.RefuseFor(parsed, path);
            var played = BreakInput.Read(parsed.GetRequiredValue(input));
            if (SoundOutput.IsSound(form.Ending))
                SoundOutput.Write(path, form.Ending, played, sound.Read(parsed, played, form.Ending == "opus"));
            else
                PageOutput.Write(path, form, played, choice);
            return Exit.Done;
        });
        return command;
    }
}
