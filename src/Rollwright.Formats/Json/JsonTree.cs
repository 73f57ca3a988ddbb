using System.Text;
using System.Text.Json;

namespace Rollwright.Formats.Json;

/// <summary>A JSON value that knows its place, so that what is wrong with it can be said where it stands.</summary>
internal sealed class JsonTree
{
    /// <summary>Values of a text: the largest break that is read has some 400,000 (our own bound, which keeps memory small).</summary>
    public const int MostValues = 500_000;

    // Most values are no lists and have no members.
    private Dictionary<string, JsonTree>? members;
    private List<JsonTree>? items;

    private JsonTree(JsonTokenType kind, long offset, string text)
    {
        Kind = kind;
        Offset = offset;
        Text = text;
    }

    public JsonTokenType Kind { get; }

    /// <summary>Bytes from the start of the text.</summary>
    public long Offset { get; }

    /// <summary>A string's content, a number's digits.</summary>
    public string Text { get; }

    public IReadOnlyList<JsonTree> Items => items ?? [];

    public IReadOnlyCollection<string> Names => members?.Keys ?? (IReadOnlyCollection<string>)[];

    public JsonTree? Find(string name) => members?.GetValueOrDefault(name);

    /// <exception cref="JsonException">The text is no JSON.</exception>
    /// <exception cref="JsonFault">It has too many values.</exception>
    public static JsonTree Parse(ReadOnlySpan<byte> text)
    {
        var reader = new Utf8JsonReader(text);
        reader.Read();
        var left = MostValues;
        var tree = Read(ref reader, ref left);
        // Anything but white space behind the value is an error of its own.
        reader.Read();
        return tree;
    }

    private static JsonTree Read(ref Utf8JsonReader reader, ref int left)
    {
        if (left-- == 0)
            throw new JsonFault(
                reader.TokenStartIndex,
                $"more than {MostValues} values",
                "give a single break, of a tune that people play"
            );
        var kind = reader.TokenType;
        var text = kind switch
        {
            JsonTokenType.String => reader.GetString()!,
            JsonTokenType.Number => Encoding.UTF8.GetString(reader.ValueSpan),
            _ => "",
        };
        var tree = new JsonTree(kind, reader.TokenStartIndex, text);
        if (kind == JsonTokenType.StartArray)
        {
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                (tree.items ??= []).Add(Read(ref reader, ref left));
        }
        else if (kind == JsonTokenType.StartObject)
        {
            while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
            {
                var name = reader.GetString()!;
                reader.Read();
                (tree.members ??= new(StringComparer.Ordinal))[name] = Read(ref reader, ref left);
            }
        }
        return tree;
    }
}
