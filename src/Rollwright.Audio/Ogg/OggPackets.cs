namespace Rollwright.Audio.Ogg;

/// <summary>Packets of the first logical stream of an Ogg file.</summary>
internal sealed class OggPackets(OggPages pages)
{
    /// <summary>A packet of sound is never near this (assumption); a file that asks for more is damaged.</summary>
    private const int MostBytes = 1_000_000;

    private readonly Queue<Packet> ready = new();
    private readonly List<byte> open = [];
    private uint? serial;
    private long number = -1;

    /// <param name="Bytes">All of it.</param>
    /// <param name="Granule">The stream's time at its end, where it is the last that ends on its page; otherwise null.</param>
    /// <param name="IsLast">Whether the stream ends with it.</param>
    public readonly record struct Packet(byte[] Bytes, long? Granule, bool IsLast);

    /// <summary>Whether the stream's last page was met.</summary>
    public bool HasEnded { get; private set; }

    /// <summary>Whether a page of the stream was missing or damaged.</summary>
    public bool HasGap { get; private set; }

    /// <summary>The next packet; null at the end.</summary>
    public Packet? Next()
    {
        while (ready.Count == 0)
        {
            if (HasEnded || pages.Next() is not { } page)
                return null;
            serial ??= page.Serial;
            if (page.Serial == serial)
                Take(page);
        }
        return ready.Dequeue();
    }

    private void Take(OggPages.Page page)
    {
        var isGap = number >= 0 && page.Number != number + 1;
        number = page.Number;
        HasGap |= isGap;
        HasEnded = page.IsLast;
        if (isGap || !page.Continues)
            open.Clear();
        // What goes on from a page that is lost has no beginning.
        var isHeadless = page.Continues && open.Count == 0;
        var whole = new List<byte[]>();
        var at = 0;
        foreach (var length in page.Segments)
        {
            open.AddRange(page.Content.AsSpan(at, length));
            at += length;
            if (open.Count > MostBytes)
                throw new InvalidDataException("A packet without an end.");
            if (length == 255)
                continue;
            if (!isHeadless)
                whole.Add([.. open]);
            isHeadless = false;
            open.Clear();
        }
        for (var i = 0; i < whole.Count; i++)
        {
            var isLast = i == whole.Count - 1;
            ready.Enqueue(new(whole[i], isLast && page.Granule >= 0 ? page.Granule : null, isLast && page.IsLast));
        }
    }
}
