using Rollwright.Arranging.Advice;

namespace Rollwright.Web.State;

/// <summary>What the person asked for; null is 'chosen for you'.</summary>
/// <param name="Key">The sounding key's tonic, such as "A"; the mode is the tune's.</param>
/// <param name="Tuning">A tuning's id.</param>
/// <param name="Capo">0 to 12.</param>
/// <param name="Octave">Where the melody lies, from the tune as written.</param>
/// <param name="Level">1, first year, to 5, performer.</param>
/// <param name="Style">A style's name; null for the one that suits the tune.</param>
/// <param name="SecondTime">Repeats are written out, and the second time differs in this share of its steps; null for repeats as written.</param>
/// <param name="Instead">What is played instead of the break; null for the break itself.</param>
public sealed record Wishes(
    string? Key = null,
    string? Tuning = null,
    int? Capo = null,
    int? Octave = null,
    int Level = Wishes.UsualLevel,
    string? Style = null,
    double? SecondTime = null,
    Instead? Instead = null
)
{
    public const int UsualLevel = 3;

    /// <summary>The wishes that choose how the hands and the strings are set; as they were before anything was asked for.</summary>
    public Wishes WithoutSetting() => this with { Key = null, Tuning = null, Capo = null, Octave = null };

    /// <summary>What these ask for that others did not, in words: "level 4, melodic style".</summary>
    public string WordsSince(Wishes before)
    {
        ArgumentNullException.ThrowIfNull(before);
        return string.Join(", ", Differences(before).Where(words => words.Length > 0));
    }

    /// <summary>What is asked for that may stand in a tune's way: "in D, capo 5, level 1".</summary>
    public string Words => WordsSince(new(Level: 0));

    private IEnumerable<string> Differences(Wishes before)
    {
        yield return Said(before, wishes => wishes.Key, key => $"in {key}", "in its own key");
        yield return Said(
            before,
            wishes => wishes.Tuning,
            id => $"{Rollwright.Banjo.Tunings.TuningTable.Find(id)?.Name ?? id} tuning",
            "any tuning"
        );
        yield return Said(
            before,
            wishes => wishes.Capo,
            fret => fret == 0 ? "no capo" : $"capo {fret}",
            "capo as it suits"
        );
        yield return Said(
            before,
            wishes => wishes.Octave,
            octave => OctaveWords.Of(octave!.Value),
            "the octave that suits"
        );
        yield return Said(before, wishes => wishes.Style, name => $"{name} style", "the style that suits");
        yield return Said(before, wishes => (int?)wishes.Level, level => $"level {level}", "");
        yield return Said(
            before,
            wishes => wishes.SecondTime,
            share => $"repeats differ by {100 * share:0} %",
            "repeats as written"
        );
        yield return Said(before, wishes => wishes.Instead, instead => instead.Words, "the break itself");
    }

    private string Said<T>(Wishes before, Func<Wishes, T?> wish, Func<T, string> words, string none)
    {
        var (now, then) = (wish(this), wish(before));
        return EqualityComparer<T?>.Default.Equals(now, then) ? ""
            : now is null ? none
            : words(now);
    }
}
