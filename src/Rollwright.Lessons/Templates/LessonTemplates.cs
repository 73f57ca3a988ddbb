using System.Collections.Concurrent;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Words.Edits;

namespace Rollwright.Lessons.Templates;

/// <summary>The templates that the program has: <c>data/templates</c>.</summary>
public static class LessonTemplates
{
    private static readonly ConcurrentDictionary<string, Template> Read = new();

    /// <summary>A lesson in Markdown with plain-text tab.</summary>
    public static Template Lesson => Of("lesson");

    /// <summary>A column of a magazine.</summary>
    public static Template Article => Of("article");

    /// <summary>A booklet to print.</summary>
    public static Template Handout => Of("handout");

    /// <summary>A template of one's own.</summary>
    /// <param name="text">Markdown with places.</param>
    /// <param name="file">Its name, for messages.</param>
    /// <exception cref="LessonException">A place is not closed or has no name that is known.</exception>
    public static Template Parse(string text, string file) => Template.Parse(text, file, LessonPlaces.Names);

    /// <summary>The template that a person keeps with their words; null where there is none.</summary>
    public static Template? Own(LessonText words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.Template.Length > 0 ? Parse(words.Template, "template") : null;
    }

    private static Template Of(string name) =>
        Read.GetOrAdd(
            name,
            static name =>
            {
                using var stream = typeof(LessonTemplates).Assembly.GetManifestResourceStream($"templates/{name}.md")!;
                using var reader = new StreamReader(stream);
                return Parse(reader.ReadToEnd(), $"{name}.md");
            }
        );
}
