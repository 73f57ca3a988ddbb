using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.Json;

/// <summary>Asks a tree for values, checking kind and range.</summary>
internal static class JsonValues
{
    public static JsonTree Need(this JsonTree tree, string name)
    {
        if (tree.Kind != JsonTokenType.StartObject)
            throw new JsonFault(tree.Offset, "an object { } is expected here", "see docs/formats.md for the form");
        return tree.Find(name) ?? throw new JsonFault(tree.Offset, $"'{name}' is missing here", $"add \"{name}\"");
    }

    public static string Text(this JsonTree tree) =>
        tree.Kind == JsonTokenType.String
            ? tree.Text
            : throw new JsonFault(tree.Offset, "a text is expected here", "put it between quotation marks");

    public static string TextOr(this JsonTree tree, string name, string otherwise) =>
        tree.Find(name)?.Text() ?? otherwise;

    public static int Whole(this JsonTree tree, int least, int most)
    {
        if (
            tree.Kind == JsonTokenType.Number
            && int.TryParse(tree.Text, NumberStyles.AllowLeadingSign, null, out var value)
            && value >= least
            && value <= most
        )
            return value;
        throw new JsonFault(
            tree.Offset,
            $"a whole number from {least} to {most} is expected here",
            "write one without quotation marks"
        );
    }

    public static double Number(this JsonTree tree, double least, double most)
    {
        if (
            tree.Kind == JsonTokenType.Number
            && double.TryParse(tree.Text, NumberStyles.Float, null, out var value)
            && value >= least
            && value <= most
        )
            return value;
        throw new JsonFault(
            tree.Offset,
            $"a number from {least} to {most} is expected here",
            "write one without quotation marks"
        );
    }

    public static bool Flag(this JsonTree tree, string name) =>
        tree.Find(name) switch
        {
            null => false,
            { Kind: JsonTokenType.True } => true,
            { Kind: JsonTokenType.False } => false,
            var other => throw new JsonFault(
                other.Offset,
                "true or false is expected here",
                "write it without quotation marks"
            ),
        };

    public static Fraction Time(this JsonTree tree, bool isZeroAllowed)
    {
        var value = JsonNames.Fraction(tree.Text());
        if (value is { } time && (time > Fraction.Zero || (isZeroAllowed && time == Fraction.Zero)))
            return time;
        throw new JsonFault(
            tree.Offset,
            $"'{tree.Text}' is not a time in whole notes",
            "write a fraction such as \"3/8\""
        );
    }

    public static T Parsed<T>(this JsonTree tree, Func<string, T?> parse, string what, string example)
        where T : struct =>
        parse(tree.Text())
        ?? throw new JsonFault(tree.Offset, $"'{tree.Text}' is not {what}", $"write it as \"{example}\"");

    public static ImmutableArray<T> List<T>(this JsonTree? tree, Func<JsonTree, T> read)
    {
        if (tree is null)
            return [];
        if (tree.Kind != JsonTokenType.StartArray)
            throw new JsonFault(tree.Offset, "a list [ ] is expected here", "see docs/formats.md for the form");
        return [.. tree.Items.Select(read)];
    }
}
