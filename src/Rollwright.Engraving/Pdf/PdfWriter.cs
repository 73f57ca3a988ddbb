using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Skia;
using SkiaSharp;

namespace Rollwright.Engraving.Pdf;

/// <summary>Writes a layout as PDF: all fonts inside, words as real text, the same bytes for the same layout.</summary>
public static class PdfWriter
{
    /// <param name="layout">What to print.</param>
    /// <param name="created">The date that the file shall carry; null for none, as this room has no clock.</param>
    public static byte[] Write(Layout layout, DateTime? created = null)
    {
        using var stream = new MemoryStream();
        var metadata = new SKDocumentPdfMetadata
        {
            Title = layout.Title,
            Author = layout.Author,
            Subject = layout.Words,
            Creator = "Rollwright",
            Creation = created,
            Modified = created,
            // The library rounds the size of a page to dots: a hundredth of a point.
            RasterDpi = 7200,
            EncodingQuality = 101,
        };
        using var fonts = new CarriedFonts(layout.Pages);
        using (var document = SKDocument.CreatePdf(stream, metadata))
        {
            foreach (var page in layout.Pages)
            {
                var canvas = document.BeginPage((float)page.Width, (float)page.Height);
                Painter.Paint(canvas, page, fonts.Of);
                document.EndPage();
            }
            document.Close();
        }
        return stream.ToArray();
    }
}
