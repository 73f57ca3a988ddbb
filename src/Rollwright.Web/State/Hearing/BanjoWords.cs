using System.Globalization;
using Rollwright.Listening.Banjos;

namespace Rollwright.Web.State.Hearing;

/// <summary>What was learnt of a banjo, in words.</summary>
public static class BanjoWords
{
    public static IReadOnlyList<string> Of(OwnBanjo banjo)
    {
        ArgumentNullException.ThrowIfNull(banjo);
        var cents = Math.Round(Math.Abs(banjo.Cents), 1).ToString("0.0", CultureInfo.InvariantCulture);
        return
        [
            banjo.Cents == 0
                ? "It is heard at its pitch."
                : $"In tune, it is heard {cents} cents {(banjo.Cents > 0 ? "above" : "below")} its pitch; so much is taken off.",
            $"What {banjo.Notes.Count} of its pitches look like is known.",
            !banjo.KnowsStops
                ? "How its notes stop was not told: frets 1 and 2 of each long string after the roll would."
            : banjo.Stops is null
                ? "Its notes ring on when their string is taken anew: that does not tell its strings apart."
            : "Its notes stop when their string is taken anew: that tells its strings apart.",
        ];
    }
}
