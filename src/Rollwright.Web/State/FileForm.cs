using System.Collections.Immutable;
using System.Text;
using Rollwright.Audio.Opus;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Pdf;
using Rollwright.Engraving.Png;
using Rollwright.Engraving.Svg;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Json;
using Rollwright.Formats.Midi;
using Rollwright.Formats.MusicXml;
using Rollwright.Formats.TextTab;
using Rollwright.Lessons.Player;
using Rollwright.Sound;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.State;

/// <summary>A form in which a break can be taken away.</summary>
/// <param name="Ending">File name ending without the dot.</param>
/// <param name="Type">Media type.</param>
/// <param name="Name">What it is, for a list.</param>
/// <param name="Use">What it is good for, in a few words.</param>
/// <param name="Write">The file's bytes.</param>
public sealed record FileForm(string Ending, string Type, string Name, string Use, Func<Break, byte[]> Write)
{
    /// <summary>What kind of work it is to make one.</summary>
    public JobKind Kind =>
        Type.StartsWith("audio/", StringComparison.Ordinal) && Ending != "mid" ? JobKind.Sound : JobKind.File;

    /// <summary>The paper of pictures: one column as long as the music.</summary>
    public static PageStyle PictureStyle { get; } = PageStyle.Continuous(760) with { Margin = 24 };

    public static ImmutableArray<FileForm> All { get; } =
    [
        new(
            "pdf",
            "application/pdf",
            "Pages",
            "to print",
            played => PdfWriter.Write(Engraver.Lay(played, PageStyle.A4))
        ),
        new("png", "image/png", "Picture", "to post", played => PngWriter.Write(Engraver.Lay(played, PictureStyle))),
        new("svg", "image/svg+xml", "Drawing", "sharp at any size", played => Encoding.UTF8.GetBytes(Svg(played))),
        new(
            "musicxml",
            "application/vnd.recordare.musicxml+xml",
            "MusicXML",
            "for notation programs",
            played => Encoding.UTF8.GetBytes(MusicXmlWriter.Write(played))
        ),
        new(
            "mxl",
            "application/vnd.recordare.musicxml",
            "MusicXML, compressed",
            "the same, small",
            played => MxlFile.Write(MusicXmlWriter.Write(played))
        ),
        new(
            "tab",
            "text/plain; charset=utf-8",
            "Plain-text tab",
            "to mail",
            played => Encoding.UTF8.GetBytes(TextTabWriter.Write(played))
        ),
        new("mid", "audio/midi", "MIDI", "for sequencers", MidiWriter.Write),
        new(
            "abc",
            "text/vnd.abc; charset=utf-8",
            "ABC",
            "for fiddlers",
            played => Encoding.UTF8.GetBytes(AbcWriter.Write(played))
        ),
        new(
            "json",
            "application/json",
            "Data",
            "all that it holds",
            played => Encoding.UTF8.GetBytes(JsonWriter.Write(played))
        ),
        new(
            "html",
            "text/html; charset=utf-8",
            "Page that plays",
            "to practise with, no server",
            played => Encoding.UTF8.GetBytes(PlayerPage.Write(played))
        ),
        new("wav", "audio/wav", "Sound", "to play along", played => WavWriter.ToBytes(Synth.Render(played))),
        new(
            "opus",
            "audio/ogg",
            "Sound, small",
            "to send",
            played => OpusWriter.ToBytes(Synth.Render(played, new() { SampleRate = OpusWriter.Rate }), played.Title)
        ),
    ];

    public static FileForm? Find(string ending) => All.FirstOrDefault(form => form.Ending == ending);

    // On its own: with its fonts inside, so that it looks the same wherever it is opened.
    private static string Svg(Break played) =>
        SvgWriter.Write(Engraver.Lay(played, PictureStyle), options: new() { EmbedFonts = true });
}
