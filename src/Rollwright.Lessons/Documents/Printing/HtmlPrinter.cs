using System.Net;
using Markdig;
using Markdig.Renderers;
using Markdig.Renderers.Html;
using Markdig.Syntax;

namespace Rollwright.Lessons.Documents.Printing;

/// <summary>A document as one HTML file, its figures beside it or, to be looked at, inside.</summary>
internal static class HtmlPrinter
{
    // Black on white, the measure of a column that can be read; no colour carries a meaning.
    private const string Sheet = """
        body { margin: 2rem auto; max-width: 40rem; padding: 0 1rem; font: 1.05rem/1.5 Georgia, "Times New Roman", serif; color: #1c1a17; background: #fff; }
        h1, h2, h3 { line-height: 1.2; margin: 1.6em 0 .5em; }
        figure { margin: 1.4em 0; break-inside: avoid; }
        figure img { max-width: 100%; height: auto; }
        figcaption { font-style: italic; font-size: .92em; }
        blockquote { margin: 1em 0; padding-left: .9em; border-left: 3px solid #1c1a17; font-style: italic; }
        pre { overflow-x: auto; }
        table { border-collapse: collapse; }
        th, td { text-align: left; padding: .25em .8em .25em 0; border-bottom: 1px solid #1c1a17; }
        """;

    /// <param name="document">What is printed.</param>
    /// <param name="addressOf">Where a figure or picture is found; null for where the text has it.</param>
    public static string Print(LessonDocument document, Func<LessonDocument.Shown, string>? addressOf = null)
    {
        using var text = new StringWriter();
        var renderer = new HtmlRenderer(text);
        OwnMarkdown.Pipeline.Setup(renderer);
        renderer.ObjectRenderers.ReplaceOrAdd<ParagraphRenderer>(
            new FigureParagraphs(document, addressOf ?? (shown => shown.Address))
        );
        renderer.Render(document.Tree);
        return $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8" />
            <meta name="viewport" content="width=device-width, initial-scale=1" />
            <meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self' file: data:; style-src 'unsafe-inline'" />
            <title>{WebUtility.HtmlEncode(Printable(document.Title))}</title>
            <style>
            {Sheet}
            </style>
            </head>
            <body>
            <main>
            {text}</main>
            </body>
            </html>

            """;
    }

    private static string Printable(string title) =>
        string.Concat(title.Select(sign => char.IsControl(sign) ? ' ' : sign));

    private sealed class FigureParagraphs(LessonDocument document, Func<LessonDocument.Shown, string> addressOf)
        : ParagraphRenderer
    {
        protected override void Write(HtmlRenderer renderer, ParagraphBlock obj)
        {
            if (document.ShownIn(obj) is not { } shown)
            {
                base.Write(renderer, obj);
                return;
            }
            renderer.EnsureLine();
            renderer.Write("<figure><img src=\"").WriteEscapeUrl(addressOf(shown)).Write("\" alt=\"");
            renderer.WriteEscape(shown.Alt).Write('"').Write(SizeOf(shown)).Write(" />");
            if (shown.Caption.Length > 0)
                renderer.Write("<figcaption>").WriteEscape(shown.Caption).Write("</figcaption>");
            renderer.WriteLine("</figure>");
        }

        // The page does not jump when pictures come: CSS pixels, 96 an inch.
        private static string SizeOf(LessonDocument.Shown shown)
        {
            var (width, height) = shown.Figure is { } figure
                ? (figure.Drawing.Pages[0].Width * 96 / 72, figure.Drawing.Pages[0].Height * 96 / 72)
                : (shown.Picture!.Width, shown.Picture.Height);
            return $" width=\"{width:0}\" height=\"{height:0}\"";
        }
    }
}
