using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc;

/// <summary>
/// How far an accidental reaches: by the standard's default to all notes of its letter until the bar line, in every
/// octave (ABC 2.1, section 11.3, %%propagate-accidentals).
/// </summary>
internal sealed class Accidentals
{
    private readonly Dictionary<(Letter, int), int> signs = [];

    public enum Scope
    {
        /// <summary>The note itself only.</summary>
        Not,

        /// <summary>The same letter in the same octave.</summary>
        Octave,

        /// <summary>The same letter in every octave.</summary>
        Pitch,
    }

    public Scope Reach { get; set; } = Scope.Pitch;

    public void Clear() => signs.Clear();

    public void Set(Letter letter, int octave, int alter)
    {
        if (Reach != Scope.Not)
            signs[(letter, Reach == Scope.Pitch ? 0 : octave)] = alter;
    }

    /// <summary>The alteration that an earlier accidental of the bar gives; null where there is none.</summary>
    public int? Of(Letter letter, int octave) =>
        signs.TryGetValue((letter, Reach == Scope.Pitch ? 0 : octave), out var alter) ? alter : null;
}
