namespace Rollwright.Listening.Spectra;

/// <summary>A stretch of a recording with some sound on either side, so that what begins at its edge is seen whole.</summary>
/// <param name="Sound">One channel.</param>
/// <param name="Start">Seconds of the recording at which <paramref name="Sound"/> begins; before 0 for none.</param>
/// <param name="From">What begins here or later belongs to the piece, seconds of the recording.</param>
/// <param name="Until">What begins here or later belongs to the next.</param>
internal sealed record Piece(float[] Sound, double Start, double From, double Until)
{
    private const int Length = 30;
    private const int Margin = 1;

    /// <summary>Cuts a sound into pieces, one in memory at a time.</summary>
    /// <param name="blocks">One channel, in order.</param>
    /// <param name="rate">Samples a second.</param>
    public static IEnumerable<Piece> Cut(IEnumerable<float[]> blocks, int rate)
    {
        var held = new List<float>();
        // The sample of the recording with which the held ones begin; where the piece after begins.
        var (first, from) = (0L, 0L);
        foreach (var block in blocks)
        {
            held.AddRange(block);
            while (first + held.Count >= from + ((Length + Margin) * (long)rate))
            {
                var until = from + (Length * (long)rate);
                yield return Of((int)(until + (Margin * (long)rate) - first), until);
                from = until;
                var gone = (int)Math.Max(0, from - (Margin * (long)rate) - first);
                held.RemoveRange(0, gone);
                first += gone;
            }
        }
        if (held.Count > 0)
            yield return Of(held.Count, long.MaxValue);

        Piece Of(int count, long until) =>
            new(
                [.. held.Take(count)],
                (double)first / rate,
                (double)from / rate,
                until == long.MaxValue ? double.MaxValue : (double)until / rate
            );
    }
}
