using System.Security.Cryptography;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Formats.Json;

namespace Rollwright.Web.State;

/// <summary>A break that was made, under the name by which the browser asks for its forms.</summary>
/// <param name="Id">Letters and digits; the same break has the same, whichever page or session made it.</param>
/// <param name="Break">The break.</param>
public sealed record Made(string Id, Break Break)
{
    private const int IdLength = 16;

    public static Made Of(Break played) =>
        new(
            Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(JsonWriter.Write(played))))[..IdLength],
            played
        );

    /// <summary>The break on A4 paper; laid out anew each time, which takes a few milliseconds.</summary>
    public Layout Paper => Engraver.Lay(Break, PageStyle.A4);

    /// <summary>A file name without ending: the title in letters, digits and hyphens.</summary>
    public string Stem
    {
        get
        {
            var stem = new StringBuilder();
            foreach (var letter in Break.Title)
            {
                if (char.IsLetterOrDigit(letter))
                    stem.Append(char.ToLowerInvariant(letter));
                else if (stem.Length > 0 && stem[^1] != '-')
                    stem.Append('-');
            }
            var name = stem.ToString().Trim('-');
            return name.Length == 0 ? "break" : name[..Math.Min(60, name.Length)];
        }
    }
}
