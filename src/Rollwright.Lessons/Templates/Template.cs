using System.Collections.Immutable;
using System.Text;

namespace Rollwright.Lessons.Templates;

/// <summary>
/// A text in Markdown with named places in double braces, such as <c>{{phrases}}</c>. A backslash before the braces keeps them
/// as they are.
/// </summary>
public sealed class Template
{
    private const string Open = "{{";
    private const string Close = "}}";

    private readonly ImmutableArray<Part> parts;

    private readonly record struct Part(string Text, bool IsPlace);

    private Template(string text, ImmutableArray<Part> parts) => (Text, this.parts) = (text, parts);

    /// <summary>As it was written.</summary>
    public string Text { get; }

    /// <param name="text">The template.</param>
    /// <param name="file">Its name, for messages.</param>
    /// <param name="known">Names of places that there are.</param>
    /// <exception cref="LessonException">A place is not closed, or has a name that is none; with line, column and remedy.</exception>
    public static Template Parse(string text, string file, IReadOnlyCollection<string> known)
    {
        ArgumentNullException.ThrowIfNull(text);
        var parts = ImmutableArray.CreateBuilder<Part>();
        var plain = new StringBuilder();
        for (var i = 0; i < text.Length; )
        {
            if (string.CompareOrdinal(text, i, @"\" + Open, 0, 3) == 0)
            {
                plain.Append(Open);
                i += 3;
                continue;
            }
            if (string.CompareOrdinal(text, i, Open, 0, Open.Length) != 0)
            {
                plain.Append(text[i++]);
                continue;
            }
            var line = text.IndexOf('\n', i);
            var end = text.IndexOf(Close, i, (line < 0 ? text.Length : line) - i, StringComparison.Ordinal);
            if (end < 0)
                throw new LessonException($"{At(text, i, file)}: this place is not closed; end it with }}}}");
            var name = text[(i + Open.Length)..end].Trim();
            if (!known.Contains(name))
                throw new LessonException(
                    $"{At(text, i, file)}: no place is called '{name}'; did you mean '{NearestName.To(name, known)}'? There are {string.Join(", ", known.Order(StringComparer.Ordinal))}"
                );
            parts.Add(new(plain.ToString(), false));
            parts.Add(new(name, true));
            plain.Clear();
            i = end + Close.Length;
        }
        parts.Add(new(plain.ToString(), false));
        return new(text, parts.ToImmutable());
    }

    /// <summary>The text with its places filled; a heading under which nothing stands is left out.</summary>
    /// <param name="valueOf">What stands at a place, in Markdown. Asked in the order of the text.</param>
    /// <param name="last">A place that is asked for when all others are there, as it tells of them; null for none.</param>
    public string Fill(Func<string, string> valueOf, string? last = null)
    {
        ArgumentNullException.ThrowIfNull(valueOf);
        var values = new string[parts.Length];
        foreach (var late in new[] { false, true })
        {
            for (var i = 0; i < parts.Length; i++)
            {
                if (parts[i].IsPlace && (parts[i].Text == last) == late)
                    values[i] = valueOf(parts[i].Text);
            }
        }
        return MarkdownTidying.Tidy(
            string.Concat(parts.Select((part, i) => part.IsPlace ? values[i].Trim('\n') : part.Text))
        );
    }

    private static string At(string text, int index, string file)
    {
        var before = text[..index];
        var line = before.Count(sign => sign == '\n') + 1;
        return $"{file}:{line}:{index - before.LastIndexOf('\n')}";
    }
}
