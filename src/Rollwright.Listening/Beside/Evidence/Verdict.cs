using Rollwright.Listening.Beside.Following;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>What became of a note that was meant.</summary>
/// <param name="Label">Whether it sounded.</param>
/// <param name="Instead">MIDI key that sounded in its place; null where none did.</param>
internal readonly record struct Fate(NoteLabel Label, int? Instead);

/// <summary>What a gesture came to.</summary>
/// <param name="Notes">By note of the gesture meant.</param>
/// <param name="Added">MIDI keys that sounded with it and were not meant.</param>
/// <param name="Onset">Seconds; null where nothing sounded.</param>
internal sealed record Verdict(IReadOnlyList<Fate> Notes, IReadOnlyList<int> Added, double? Onset)
{
    public static Verdict AsMeant(Gesture meant, double onset) =>
        new([.. meant.Notes.Select(_ => new Fate(NoteLabel.Ok, null))], [], onset);

    public static Verdict Missing(Gesture meant) =>
        new([.. meant.Notes.Select(_ => new Fate(NoteLabel.Missing, null))], [], null);
}
