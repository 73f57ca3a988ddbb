namespace Rollwright.Audio.Reading;

/// <summary>Sound that is read in blocks, from its beginning to its end, so that its length costs no memory.</summary>
public interface ISoundSource : IDisposable
{
    /// <summary>Frames a second, 1,000 to 384,000.</summary>
    int Rate { get; }

    /// <summary>1 to 8.</summary>
    int Channels { get; }

    /// <summary>The next frames, interleaved, full scale from -1 to 1; beyond it where a lossy form went there.</summary>
    /// <param name="values">Room for at least one frame.</param>
    /// <returns>How many values were written: whole frames; 0 at the end and ever after.</returns>
    int Read(Span<float> values);

    /// <summary>
    /// What was amiss in what has been read so far, a line for people each ("the file ends at 0:12 …"); complete once
    /// the end was reached.
    /// </summary>
    IReadOnlyList<string> Remarks { get; }
}
