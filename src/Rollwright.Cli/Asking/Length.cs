using System.Globalization;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Asking;

/// <summary>Reads lengths that people write: "90mm", "3.5in".</summary>
internal static class Length
{
    private static readonly (string Unit, double Points)[] Units =
    [
        ("mm", 72 / 25.4),
        ("cm", 720 / 25.4),
        ("in", 72),
        ("pt", 1),
    ];

    /// <exception cref="RequestException">It is no length.</exception>
    public static double Points(string text)
    {
        foreach (var (unit, points) in Units)
        {
            if (
                text.EndsWith(unit, StringComparison.OrdinalIgnoreCase)
                && double.TryParse(text[..^2], NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
                && number > 0
            )
                return number * points;
        }
        throw new RequestException(
            $"--width: '{text}' is no width; write a number with mm, cm, in or pt, such as 90mm"
        );
    }
}
