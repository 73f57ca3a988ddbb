using System.Collections.Immutable;

namespace Rollwright.Formats.Messages;

/// <summary>Collects the messages of one reading, in order of the text.</summary>
internal sealed class MessageLog(string file)
{
    /// <summary>A file with more to say than this is not read by anybody; the last line says that there was more.</summary>
    public const int MostMessages = 2000;

    private readonly List<Message> messages = [];
    private readonly HashSet<string> said = new(StringComparer.Ordinal);

    public string File { get; } = file;

    public ImmutableArray<Message> Messages => [.. messages];

    public void Error(int line, int column, string what, string remedy) =>
        Add(new(Severity.Error, File, line, column, what, remedy));

    public void Warning(int line, int column, string what, string remedy) =>
        Add(new(Severity.Warning, File, line, column, what, remedy));

    /// <summary>Says a thing the first time only; <paramref name="what"/> must not depend on the place.</summary>
    public void NoteOnce(int line, int column, string what)
    {
        if (said.Add(what))
            Add(new(Severity.Note, File, line, column, what));
    }

    private void Add(Message message)
    {
        if (messages.Count < MostMessages)
            messages.Add(message);
        else if (messages.Count == MostMessages)
            messages.Add(
                message with
                {
                    What = "there is more to say about this file",
                    Remedy = "mend the above first",
                }
            );
    }
}
