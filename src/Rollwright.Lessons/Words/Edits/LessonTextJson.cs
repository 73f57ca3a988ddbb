using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Rollwright.Lessons.Words.Edits;

/// <summary>A person's words in a file: JSON with a version, so that later programs can still read it.</summary>
public static class LessonTextJson
{
    private const string Format = "rollwright lesson text";
    private const int Version = 1;
    private const int MostEdits = 10_000;

    // The words of a person are to be read in the file too; it is no page.
    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static string Write(LessonText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var edits = new JsonArray();
        foreach (var edit in text.Edits)
            edits.Add(
                new JsonObject
                {
                    ["phrase"] = edit.Phrase,
                    ["notes"] = edit.Notes,
                    ["text"] = edit.Text,
                }
            );
        var file = new JsonObject
        {
            ["format"] = Format,
            ["version"] = Version,
            ["edits"] = edits,
        };
        if (text.Introduction.Length > 0)
            file["introduction"] = text.Introduction;
        if (text.Template.Length > 0)
            file["template"] = text.Template;
        return file.ToJsonString(Readable);
    }

    /// <exception cref="LessonException">It is no such file, of a later version, or something in it is wrong.</exception>
    public static LessonText Read(string json)
    {
        JsonNode? root;
        try
        {
            root = JsonNode.Parse(json);
        }
        catch (JsonException fault)
        {
            throw new LessonException(
                $"line {fault.LineNumber + 1}, column {fault.BytePositionInLine + 1}: this is not JSON; give a file of words as this program writes it"
            );
        }
        if (root is not JsonObject file || Text(file, "format") != Format)
            throw new LessonException($"this is no file of words for a lesson: its format is not \"{Format}\"");
        if (Whole(file, "version") is not { } version || version != Version)
            throw new LessonException(
                $"version {file["version"]?.ToJsonString() ?? "none"} is not {Version}: it was written by another version of this program"
            );
        if (file["edits"] is not JsonArray { Count: <= MostEdits } edits)
            throw new LessonException($"\"edits\" must be a list of at most {MostEdits}");
        var read = ImmutableArray.CreateBuilder<WordEdit>(edits.Count);
        for (var i = 0; i < edits.Count; i++)
        {
            if (
                edits[i] is not JsonObject edit
                || Whole(edit, "phrase") is not (>= 1 and { } phrase)
                || Text(edit, "notes") is not { Length: > 0 } notes
                || Text(edit, "text") is not { Length: > 0 and <= LessonText.LongestText } text
            )
                throw new LessonException(
                    $"edit {i + 1}: it needs a \"phrase\" from 1, \"notes\", and a \"text\" of 1 to {LessonText.LongestText} characters"
                );
            read.Add(new(phrase, notes, text));
        }
        return new LessonText(read.MoveToImmutable()).Around(
            Text(file, "introduction") ?? "",
            Text(file, "template") ?? ""
        );
    }

    private static string? Text(JsonObject of, string name) =>
        of[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    private static int? Whole(JsonObject of, string name) =>
        of[name] is JsonValue value && value.TryGetValue<int>(out var number) ? number : null;
}
