using System.Collections.Immutable;
using Rollwright.Arranging.Chording;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;

namespace Rollwright.HarmonyTraining;

/// <summary>
/// The tunes with people's chords: one half of a collection to train on, the other half and tunes from elsewhere only to
/// measure on.
/// </summary>
/// <param name="Taught">Every other tune from the first on, less those that are near one of the tunes to measure on.</param>
/// <param name="Held">The tunes between.</param>
/// <param name="Others">Tunes of other sources.</param>
/// <param name="LeftOut">How many tunes of the first half were too near.</param>
internal sealed record Collection(
    ImmutableArray<Tune> Taught,
    ImmutableArray<Tune> Held,
    ImmutableArray<Tune> Others,
    int LeftOut
)
{
    /// <param name="file">The collection, one ABC file.</param>
    /// <param name="folder">Single ABC files; those that name the collection as their source are not counted.</param>
    public static Collection Read(string file, string folder)
    {
        var all = AbcReader.Read(File.ReadAllBytes(file), Path.GetFileName(file)).Tunes;
        var first = all.Where((tune, i) => i % 2 == 0 && tune.HasChords).ToArray();
        ImmutableArray<Tune> held = [.. all.Where((tune, i) => i % 2 == 1 && tune.HasChords)];
        ImmutableArray<Tune> others =
        [
            .. Directory
                .GetFiles(folder, "*.abc")
                .Order(StringComparer.Ordinal)
                .Where(path => !File.ReadAllText(path).Contains("nottingham", StringComparison.OrdinalIgnoreCase))
                .SelectMany(path => AbcReader.Read(File.ReadAllBytes(path), Path.GetFileName(path)).Tunes)
                .Where(tune => tune.HasChords),
        ];
        var known = held.Concat(others).Select(Signature).ToArray();
        ImmutableArray<Tune> taught = [.. first.Where(tune => !IsNear(Signature(tune), known))];
        return new(taught, held, others, first.Length - taught.Length);
    }

    // Half of its bars the same, whatever the key: the same tune, or a near variant.
    private static bool IsNear(HashSet<string> tune, HashSet<string>[] known) =>
        known.Any(other => 2 * tune.Count(other.Contains) >= tune.Count);

    private static HashSet<string> Signature(Tune tune) =>
        [
            .. tune
                .Bars.Where(bar => !bar.IsPartial)
                .Select(bar =>
                    string.Join(
                        ' ',
                        bar.Notes.Select(note =>
                            $"{(note.At / bar.Length)}={(note.Pitch.Midi - tune.Key.Tonic.PitchClass + 12) % 12}"
                        )
                    )
                ),
        ];
}
