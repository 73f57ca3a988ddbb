using System.Data.Common;
using System.Text;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Rollwright.Library.Storage;

/// <summary>
/// Text as a PostgreSQL server takes it: without the character U+0000, which it has not (manual, 8.3), and without halves of pairs,
/// which have no UTF-8. In their place stands the sign for what is no character (U+FFFD); else whoever sends one is answered by a fault of
/// the database. Every parameter of every command passes here, whichever page it came by.
/// </summary>
public sealed class StorableText : DbCommandInterceptor
{
    /// <summary>The same text where it can be kept as it is.</summary>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!text.Contains('\0', StringComparison.Ordinal) && !text.AsSpan().ContainsAnyInRange('\uD800', '\uDFFF'))
            return text;
        var plain = new StringBuilder(text.Length);
        // What is half a pair is enumerated as the sign already.
        foreach (var rune in text.EnumerateRunes())
            plain.Append((rune.Value == 0 ? Rune.ReplacementChar : rune).ToString());
        return plain.ToString();
    }

    public override DbCommand CommandInitialized(CommandEndEventData eventData, DbCommand result)
    {
        foreach (DbParameter parameter in result.Parameters)
        {
            if (parameter.Value is string text)
                parameter.Value = Of(text);
        }
        return result;
    }
}
