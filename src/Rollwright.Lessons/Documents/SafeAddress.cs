namespace Rollwright.Lessons.Documents;

/// <summary>Addresses that a text that is passed on may have: of the net, of mail, of files beside it.</summary>
internal static class SafeAddress
{
    /// <summary>The same address; null where a browser might run it, or open what is not beside the text.</summary>
    public static string? Of(string? address)
    {
        if (string.IsNullOrWhiteSpace(address))
            return null;
        // Browsers leave out control signs and white before they look for a scheme.
        var plain = new string([.. address.Where(sign => !char.IsControl(sign) && !char.IsWhiteSpace(sign))]);
        var colon = plain.IndexOf(':', StringComparison.Ordinal);
        var end = plain.AsSpan().IndexOfAny('/', '?', '#');
        var hasScheme = colon >= 0 && (end < 0 || colon < end);
        if (!hasScheme)
            return plain.StartsWith("//", StringComparison.Ordinal) ? null : address;
        return plain[..colon].ToLowerInvariant() is "http" or "https" or "mailto" ? address : null;
    }
}
