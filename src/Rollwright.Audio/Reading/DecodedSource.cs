namespace Rollwright.Audio.Reading;

/// <summary>
/// Sound from a decoder of another project. Such decoders meet damage with exceptions of any kind; here damage ends the
/// sound with a remark, and what came before is kept.
/// </summary>
internal abstract class DecodedSource(Stream stream) : ISoundSource
{
    private readonly List<string> remarks = [];
    private long frames;
    private bool hasEnded;

    public abstract int Rate { get; }

    public abstract int Channels { get; }

    public IReadOnlyList<string> Remarks => remarks;

    protected Stream Stream => stream;

    public int Read(Span<float> values)
    {
        values = values[..(values.Length - (values.Length % Channels))];
        if (hasEnded || values.IsEmpty)
            return 0;
        var read = 0;
        try
        {
            read = Decode(values);
            if (read == 0 && Missing() is { } missing)
                remarks.Add($"the file ends at {Here}{missing}; what is there is heard");
        }
        catch (Exception fault) when (IsDamage(fault))
        {
            remarks.Add($"damaged at {Here}; what came before is heard");
        }
        hasEnded = read == 0;
        frames += read / Channels;
        return read;
    }

    public virtual void Dispose() => stream.Dispose();

    /// <summary>Whole frames; 0 at the end.</summary>
    protected abstract int Decode(Span<float> values);

    /// <summary>Asked at the end: what is missing (" of 0:30.0", ", in the middle"); null where all came.</summary>
    protected abstract string? Missing();

    /// <summary>Opens a decoder; what it throws says that the file does not begin as it should.</summary>
    /// <exception cref="SoundFileException">It threw.</exception>
    protected static T Begin<T>(string form, Func<T> open)
    {
        try
        {
            return open();
        }
        catch (Exception fault) when (IsDamage(fault))
        {
            throw new SoundFileException(0, $"the beginning of this {form} file is damaged; record or copy it again");
        }
    }

    protected string Here => Moment.Text((double)frames / Rate);

    // A disk that cannot be read is another matter, and so is what the machine cannot give.
    private static bool IsDamage(Exception fault) =>
        fault is EndOfStreamException or InvalidDataException
        || fault is not (IOException or OutOfMemoryException or SoundFileException or OperationCanceledException);
}
