using System.Collections.Immutable;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Chording;

/// <summary>Tunes with people's chords that nothing here was trained on.</summary>
internal static class SharedTunes
{
    private const string Collection = "collection/nottingham-cleaned.abc";

    /// <summary>The half of the Nottingham collection that training leaves alone: the second tune, the fourth, …</summary>
    public static ImmutableArray<Tune> HeldHalf() =>
        [.. All(Collection).Where((tune, i) => i % 2 == 1 && tune.HasChords)];

    /// <summary>Single tunes of other sources.</summary>
    public static ImmutableArray<Tune> Others() =>
        [
            .. Directory
                .GetFiles(Places.NeedShared("tunes"), "*.abc")
                .Order(StringComparer.Ordinal)
                .Where(file => !File.ReadAllText(file).Contains("nottingham", StringComparison.OrdinalIgnoreCase))
                .Select(file => AbcReader.Read(File.ReadAllBytes(file), Path.GetFileName(file)).Tunes[0])
                .Where(tune => tune.HasChords),
        ];

    public static ImmutableArray<Tune> All(string file) =>
        AbcReader.Read(File.ReadAllBytes(Places.NeedShared(file)), Path.GetFileName(file)).Tunes;
}
