using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Advice;

/// <summary>
/// A quick look at what a tune costs in a setting, before any lattice is built: what of it is off the neck, what must be
/// fretted anew, how high, and where the next note lies on the same string.
/// </summary>
/// <remarks>
/// The shares of the style's prices and the prices of fretted notes were found by least squares over the solved costs of
/// some 160 tunes of three open collections in rolls and mixed; see <c>bench/README.md</c> for how often the look is right.
/// </remarks>
internal sealed class SettingLook
{
    private const int MissedPercent = 75;
    private const int PlacePercent = 40;
    private const int SameStringPercent = 12;
    private const int Fretted = 180;
    private const int AFretHigher = 75;
    private const int EasyFret = 3;

    private readonly Note[] notes;
    private readonly double all;
    private readonly Weights weights;
    private readonly int highest;

    /// <param name="Key">MIDI key as the tune has it.</param>
    /// <param name="Weight">In plain off-beat notes.</param>
    /// <param name="FollowsAtOnce">The note before was struck one step earlier.</param>
    private readonly record struct Note(int Key, double Weight, bool FollowsAtOnce);

    public SettingLook(Tune tune, Style style, int level)
    {
        weights = style.Weights;
        highest = LevelTable.Of(level).Bounds.HighestFret;
        // The steps are the same in every setting, but for the pitch.
        var steps = StepGrid.Lay(tune, new Setting(TuningTable.OpenG, 0, tune.Key, 0), style.FollowsTune).Steps;
        notes =
        [
            .. steps
                .Index()
                .Where(step => step.Item.Onset is not null)
                .Select(step => new Note(
                    step.Item.Onset!.Value,
                    step.Item.Weight / 1000.0,
                    step.Index > 0 && steps[step.Index - 1].Onset is not null
                )),
        ];
        all = notes.Sum(note => note.Weight);
    }

    /// <param name="setting">Tuning, capo, position, octave.</param>
    /// <param name="price">What the setting itself costs.</param>
    public SettingOffer Of(Setting setting, int price)
    {
        double missed = 0,
            cost = 0;
        (int String, int Fret) last = default,
            fretted = default;
        foreach (var note in notes)
        {
            var place = Lowest(note.Key + setting.Shift - setting.Capo, setting.Tuning);
            if (place.Fret > Math.Min(highest, setting.LastFret))
            {
                missed += note.Weight;
                last = default;
                continue;
            }
            if (place.Fret > 0)
            {
                cost += Fretted + (AFretHigher * Math.Max(0, place.Fret - EasyFret));
                cost += place == fretted ? 0 : Share(Term.Place, PlacePercent);
                fretted = place;
            }
            if (note.FollowsAtOnce && place.String == last.String && place != last)
                cost += Share(Term.SameString, SameStringPercent);
            last = place;
        }
        cost += missed * Share(Term.MelodyMissed, MissedPercent);
        return new(setting, price, all > 0 ? 1 - (missed / all) : 0, (int)cost + price);
    }

    private double Share(Term term, int percent) => weights[term] * percent / 100.0;

    // The string on which the note lies lowest; a fret beyond every neck where it lies on none.
    private static (int String, int Fret) Lowest(int key, Tuning tuning)
    {
        var lowest = (String: 0, Fret: int.MaxValue);
        for (var s = 1; s <= 4; s++)
        {
            var fret = key - tuning.OpenOf(s);
            if (fret >= 0 && fret < lowest.Fret)
                lowest = (s, fret);
        }
        return lowest.Fret > 0 && key == tuning.OpenOf(Neck.ShortString) ? (Neck.ShortString, 0) : lowest;
    }
}
