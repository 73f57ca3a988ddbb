using SkiaSharp;

namespace Rollwright.Engraving.Measuring;

/// <summary>The fonts that travel inside the program.</summary>
internal static class FontResource
{
    public static SKTypeface Typeface(string name)
    {
        using var data = SKData.CreateCopy(Bytes(name));
        return SKTypeface.FromData(data)
            ?? throw new InvalidOperationException($"The font '{name}' inside the program is damaged; build it anew.");
    }

    public static byte[] Bytes(string name)
    {
        using var stream =
            typeof(FontResource).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The font '{name}' is not inside the program; build it anew.");
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }
}
