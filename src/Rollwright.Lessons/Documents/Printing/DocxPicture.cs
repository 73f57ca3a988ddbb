using DocumentFormat.OpenXml.Wordprocessing;
using A = DocumentFormat.OpenXml.Drawing;
using D = DocumentFormat.OpenXml.Drawing.Wordprocessing;
using Pic = DocumentFormat.OpenXml.Drawing.Pictures;

namespace Rollwright.Lessons.Documents.Printing;

/// <summary>A picture in a line of text (DrawingML), with words for those who do not see it.</summary>
internal static class DocxPicture
{
    /// <summary>English metric units of a point (ECMA-376: 914,400 an inch).</summary>
    private const double EmuPerPoint = 12_700;

    /// <param name="part">Id of the picture's part.</param>
    /// <param name="number">From 1, each another one.</param>
    /// <param name="alt">What it shows.</param>
    /// <param name="width">Points.</param>
    /// <param name="height">Points.</param>
    public static Drawing Make(string part, uint number, string alt, double width, double height)
    {
        var (across, down) = ((long)Math.Round(width * EmuPerPoint), (long)Math.Round(height * EmuPerPoint));
        var picture = new Pic.Picture(
            new Pic.NonVisualPictureProperties(
                new Pic.NonVisualDrawingProperties { Id = number, Name = $"Figure {number}" },
                new Pic.NonVisualPictureDrawingProperties()
            ),
            new Pic.BlipFill(new A.Blip { Embed = part }, new A.Stretch(new A.FillRectangle())),
            new Pic.ShapeProperties(
                new A.Transform2D(new A.Offset { X = 0, Y = 0 }, new A.Extents { Cx = across, Cy = down }),
                new A.PresetGeometry(new A.AdjustValueList()) { Preset = A.ShapeTypeValues.Rectangle }
            )
        );
        return new(
            new D.Inline(
                new D.Extent { Cx = across, Cy = down },
                new D.DocProperties
                {
                    Id = number,
                    Name = $"Figure {number}",
                    Description = alt,
                },
                new A.Graphic(
                    new A.GraphicData(picture) { Uri = "http://schemas.openxmlformats.org/drawingml/2006/picture" }
                )
            )
            {
                DistanceFromTop = 0,
                DistanceFromBottom = 0,
                DistanceFromLeft = 0,
                DistanceFromRight = 0,
            }
        );
    }
}
