using System.Globalization;

namespace Rollwright.Web.Words;

/// <summary>Prices in words; 1000 is as bad as leaving out one plain note of the tune.</summary>
public static class PriceWords
{
    private const int HardlyAnything = 250;

    /// <summary>"no dearer", "hardly dearer", "half a note dearer", "a note and a half dearer", "3 notes dearer".</summary>
    public static string Dearer(int thousandths)
    {
        if (thousandths <= 0)
            return "no dearer";
        if (thousandths < HardlyAnything)
            return "hardly dearer";
        var halves = (int)Math.Round(thousandths / 500.0, MidpointRounding.AwayFromZero);
        var notes = halves / 2;
        var words = (notes, halves % 2) switch
        {
            (0, _) => "half a note",
            (1, 0) => "a note",
            (1, _) => "a note and a half",
            (_, 0) => $"{notes} notes",
            _ => $"{notes}½ notes",
        };
        return $"{words} dearer";
    }

    /// <summary>The number in notes: "0.45", "−2.52".</summary>
    public static string Notes(int thousandths) =>
        (thousandths / 1000.0).ToString("0.00;−0.00", CultureInfo.InvariantCulture);
}
