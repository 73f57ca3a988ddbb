namespace Rollwright.Formats.Abc;

/// <summary>One line of an ABC text.</summary>
/// <param name="Number">Counted from 1.</param>
/// <param name="Text">Without its end.</param>
internal readonly record struct AbcLine(int Number, string Text)
{
    public bool IsBlank => string.IsNullOrWhiteSpace(Text);

    public bool IsDirective => Text.StartsWith("%%", StringComparison.Ordinal);

    public bool IsComment => Text.TrimStart().StartsWith('%');

    /// <summary>
    /// The letter of an information field ("K:G"), or '\0' where the line is music. A letter with a bar line of a
    /// repeat behind it ("A:|") is a note.
    /// </summary>
    public char Field
    {
        get
        {
            var isField = Text.Length >= 2 && Text[1] == ':' && (char.IsAsciiLetter(Text[0]) || Text[0] == '+');
            if (isField && Text.Length > 2 && Text[2] is '|' or ':')
                isField = false;
            return isField ? Text[0] : '\0';
        }
    }

    /// <summary>The line without its comment: '%' starts one unless escaped as '\%'.</summary>
    public AbcLine WithoutComment()
    {
        var at = Text.IndexOf('%', StringComparison.Ordinal);
        while (at > 0 && Text[at - 1] == '\\')
            at = Text.IndexOf('%', at + 1);
        return at < 0 ? this : this with { Text = Text[..at] };
    }

    /// <summary>What stands behind "K:", trimmed.</summary>
    public string Value => Text.Length > 2 ? Text[2..].Trim() : "";
}
