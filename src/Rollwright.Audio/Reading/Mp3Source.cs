using NLayer;

namespace Rollwright.Audio.Reading;

/// <summary>MP3 files, by the decoder NLayer; what the encoder put before and behind the sound is left out.</summary>
internal sealed class Mp3Source : DecodedSource
{
    private readonly MpegFile file;
    private readonly Mp3Head head;
    private long position;

    /// <param name="stream">Seekable.</param>
    /// <param name="tag">Bytes before the first frame.</param>
    public Mp3Source(Stream stream, long tag)
        : base(stream)
    {
        stream.Position = tag;
        var first = new byte[400];
        head = Mp3Head.Of(first.AsSpan(0, stream.ReadAtLeast(first, first.Length, throwOnEndOfStream: false)));
        stream.Position = 0;
        file = Begin("MP3", () => new MpegFile(stream));
        if (file.SampleRate < 1_000 || file.Channels is < 1 or > 2)
            throw new SoundFileException(tag, "the beginning of this MP3 file is damaged; record or copy it again");
    }

    public override int Rate => file.SampleRate;

    public override int Channels => file.Channels;

    protected override int Decode(Span<float> values)
    {
        while (true)
        {
            var room = head.Frames is { } all
                ? Math.Clamp((head.Delay + all - position) * Channels, 0, values.Length)
                : values.Length;
            var read = room == 0 ? 0 : file.ReadSamples(values[..(int)room]);
            read -= read % Channels;
            if (read == 0)
                return 0;
            var skipped = (int)Math.Clamp((head.Delay - position) * Channels, 0, read);
            position += read / Channels;
            if (skipped == read)
                continue;
            values[skipped..read].CopyTo(values);
            return read - skipped;
        }
    }

    protected override string? Missing() =>
        head.Frames is { } all && position < head.Delay + all - Rate / 10
            ? $" of {Moment.Text((double)all / Rate)}"
            : null;

    public override void Dispose()
    {
        file.Dispose();
        base.Dispose();
    }
}
