using System.Collections.Immutable;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>Picks licks of a bank; what is null does not matter.</summary>
/// <param name="Chord">Played over this chord; D finds D7 too, and D7 finds D.</param>
/// <param name="Next">Leads to this chord.</param>
/// <param name="Role">Its role.</param>
/// <param name="Level">At most this level.</param>
/// <param name="Tuning">Id of the tuning it is written in.</param>
/// <param name="Register">Where on the neck it lies.</param>
/// <param name="HasSlurs">With slides, hammer-ons or pull-offs, or without any.</param>
public sealed record LickSearch(
    Chord? Chord = null,
    Chord? Next = null,
    LickRole? Role = null,
    int? Level = null,
    string? Tuning = null,
    Register? Register = null,
    bool? HasSlurs = null
)
{
    public ImmutableArray<Lick> In(LickBank bank) => [.. bank.Licks.Where(Matches)];

    public bool Matches(Lick lick) =>
        (Chord is not { } chord || Same(chord, lick.Chord))
        && (Next is not { } next || (lick.Next is { } led && Same(next, led)))
        && (Role is null || Role == lick.Role)
        && (Level is null || lick.Level <= Level)
        && (Tuning is null || Tuning == lick.Tuning.Id)
        && (Register is null || Register == lick.Register)
        && (HasSlurs is null || HasSlurs == lick.Slurs > 0);

    /// <summary>Licks whose name, role, tuning and chord hold all the words, or whose tab holds the fragment.</summary>
    public static ImmutableArray<Lick> Find(LickBank bank, string wordsOrTab) =>
        TabFragment.Read(wordsOrTab) is { } fragment
            ? [.. bank.Licks.Where(fragment.IsIn)]
            : [.. bank.Licks.Where(lick => HasWords(lick, wordsOrTab))];

    private static bool HasWords(Lick lick, string words)
    {
        var text = $"{lick.Name} {LickRoles.Word(lick.Role)} {lick.Tuning.Name} {lick.Chord} {lick.Next}";
        return words
            .Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .All(word => text.Contains(word, StringComparison.OrdinalIgnoreCase));
    }

    // The same triad: a seventh more or less is the player's taste.
    private static bool Same(Chord a, Chord b) =>
        a.Root.PitchClass == b.Root.PitchClass && a.PitchClasses.Take(3).SequenceEqual(b.PitchClasses.Take(3));
}
