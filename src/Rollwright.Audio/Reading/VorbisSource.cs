using NVorbis;
using Rollwright.Audio.Ogg;

namespace Rollwright.Audio.Reading;

/// <summary>Ogg Vorbis files of one or two channels, by the decoder NVorbis.</summary>
internal sealed class VorbisSource : DecodedSource
{
    private readonly VorbisReader reader;
    private readonly bool isWhole;

    /// <param name="stream">Seekable, at its beginning.</param>
    public VorbisSource(Stream stream)
        : base(stream)
    {
        isWhole = OggPages.EndsWell(stream);
        reader = Begin("Vorbis", () => new VorbisReader(stream, closeOnDispose: false) { ClipSamples = false });
        if (reader.SampleRate is < 1_000 or > 384_000 || reader.Channels is < 1 or > 2)
            throw new SoundFileException(
                0,
                $"a Vorbis file of {reader.Channels} channels at {reader.SampleRate} frames a second; save it as stereo at 44100"
            );
    }

    public override int Rate => reader.SampleRate;

    public override int Channels => reader.Channels;

    protected override int Decode(Span<float> values) => reader.ReadSamples(values);

    protected override string? Missing() => isWhole ? null : " without the mark of an end";

    public override void Dispose()
    {
        reader.Dispose();
        base.Dispose();
    }
}
