using System.CommandLine;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library tag TAG WORDS [--remove]</c></summary>
internal static class TagTunes
{
    public static Command Build()
    {
        var tag = new Argument<string>("tag") { Description = "Your own word for them." };
        var words = new Argument<string[]>("words")
        {
            Description = "As for find: every tune that is found gets the tag.",
            Arity = ArgumentArity.OneOrMore,
        };
        var remove = new Option<bool>("--remove") { Description = "Takes the tag off instead." };
        var command = new Command("tag", "Puts a tag on the tunes that words find.") { tag, words, remove };
        command.SetAction(
            async (parsed, _) =>
            {
                var library = await LibraryCommand.OpenAsync(parsed);
                var word = parsed.GetRequiredValue(tag);
                if (string.IsNullOrWhiteSpace(word))
                    throw new Files.RequestException("the tag is empty; say a word");
                var found = await library.FindAsync(string.Join(' ', parsed.GetRequiredValue(words)), int.MaxValue);
                foreach (var tune in found)
                {
                    var tagged = parsed.GetValue(remove)
                        ? await library.UntagAsync(tune.Id, word)
                        : await library.TagAsync(tune.Id, word);
                    Console.WriteLine($"{tagged.Title}: {string.Join(", ", tagged.Tags)}");
                }
                return found.Count == 0 ? Exit.No : Exit.Done;
            }
        );
        return command;
    }
}
