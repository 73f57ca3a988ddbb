using SkiaSharp;

namespace Rollwright.Engraving.Drawing;

/// <summary>A picture as it came in a file: PNG, JPEG, WebP or GIF.</summary>
public sealed record PictureFile
{
    /// <summary>Pixels of the largest picture that is taken: more than a page can show (assumption).</summary>
    public const long MostPixels = 50_000_000;

    private PictureFile(byte[] bytes, int width, int height, string type) =>
        (Bytes, Width, Height, MediaType) = (bytes, width, height, type);

    /// <summary>The file as it is.</summary>
    public byte[] Bytes { get; }

    /// <summary>Pixels.</summary>
    public int Width { get; }

    /// <summary>Pixels.</summary>
    public int Height { get; }

    /// <summary>"image/png".</summary>
    public string MediaType { get; }

    /// <summary>Reads the head of a picture, and nothing that its size would cost.</summary>
    /// <exception cref="InvalidDataException">It is no picture, or too large; the message says which.</exception>
    public static PictureFile Read(byte[] bytes)
    {
        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data);
        if (codec is null || TypeOf(codec.EncodedFormat) is not { } type)
            throw new InvalidDataException("this is no picture that can be read; give PNG, JPEG, WebP or GIF");
        var (width, height) = (codec.Info.Width, codec.Info.Height);
        if ((long)width * height > MostPixels)
            throw new InvalidDataException(
                $"the picture has {width} × {height} pixels, and at most {MostPixels / 1_000_000} million are taken; make it smaller"
            );
        return new(bytes, width, height, type);
    }

    private static string? TypeOf(SKEncodedImageFormat format) =>
        format switch
        {
            SKEncodedImageFormat.Png => "image/png",
            SKEncodedImageFormat.Jpeg => "image/jpeg",
            SKEncodedImageFormat.Webp => "image/webp",
            SKEncodedImageFormat.Gif => "image/gif",
            _ => null,
        };
}
