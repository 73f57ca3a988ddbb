using System.Collections.Immutable;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Asking;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Pdf;
using Rollwright.Engraving.Png;
using Rollwright.Engraving.Svg;
using Rollwright.Web.State;

namespace Rollwright.Cli.Files;

/// <summary>Writes a break in a form; pages as they were asked for, several pictures where there are several pages.</summary>
internal static class PageOutput
{
    public static bool IsDrawn(string ending) => ending is "pdf" or "png" or "svg";

    /// <param name="path">The file; pages of pictures beyond one get their number before the ending.</param>
    /// <param name="form">In which form.</param>
    /// <param name="played">What is written.</param>
    /// <param name="choice">How pages are to look.</param>
    /// <param name="spots">Spans to be marked on pages.</param>
    public static void Write(
        string path,
        FileForm form,
        Break played,
        PageChoice choice,
        ImmutableArray<Span> spots = default
    )
    {
        if (SoundOutput.IsSound(form.Ending))
        {
            SoundOutput.Write(path, form.Ending, played, SoundChoice.Plain(form.Ending == "opus"));
            return;
        }
        if (!IsDrawn(form.Ending))
        {
            OutputFile.Write(path, form.Write(played));
            return;
        }
        var paper = choice.Paper ?? (form.Ending == "pdf" ? PageStyle.A4 : FileForm.PictureStyle);
        WriteLayout(path, form.Ending, Engraver.Lay(played, choice.Change(paper), spots), choice.Dpi);
    }

    /// <summary>Writes pages in the form of the ending: pdf, png or svg.</summary>
    public static void WriteLayout(string path, string ending, Layout layout, double? dpi)
    {
        if (ending == "pdf")
        {
            OutputFile.Write(path, PdfWriter.Write(layout));
            return;
        }
        for (var page = 0; page < layout.Pages.Length; page++)
        {
            var bytes =
                ending == "png"
                    ? PngWriter.Write(layout, page, dpi ?? 192)
                    : Encoding.UTF8.GetBytes(SvgWriter.Write(layout, page, new() { EmbedFonts = true }));
            OutputFile.Write(layout.Pages.Length == 1 ? path : Numbered(path, page + 1), bytes);
        }
    }

    private static string Numbered(string path, int page) =>
        path == "-"
            ? throw new RequestException("several pages of pictures need a file's name; give one, or --page column")
            : Path.Combine(
                Path.GetDirectoryName(path) ?? "",
                $"{Path.GetFileNameWithoutExtension(path)}-{page}{Path.GetExtension(path)}"
            );
}
