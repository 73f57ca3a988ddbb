using Rollwright.Arranging.Chording;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.HarmonyTraining;

/// <summary>The figures of the handbook: the tonic everywhere, the plain model, ours, people's own.</summary>
internal static class Measuring
{
    public static void Run(IReadOnlyList<TaughtTune> taught, Collection collection)
    {
        var plain = new PlainModel(taught);
        Print("the other half", collection.Held, plain);
        Print("other tunes", collection.Others, plain);
        PrintKeys("keys of the other half", collection.Held);
        PrintKeys("keys of other tunes", collection.Others);
    }

    private static void Print(string name, IEnumerable<Tune> tunes, PlainModel plain)
    {
        var scores = new[] { "tonic", "plain", "ours", "people" }.ToDictionary(way => way, _ => new Score());
        foreach (var tune in tunes)
        {
            var beats = TaughtTune.Of(tune);
            scores["tonic"].Add(tune, With(beats, [.. beats.Beats.Select(beat => beats.Beats[0].Key)]));
            scores["plain"].Add(tune, With(beats, plain.Path(beats)));
            scores["ours"].Add(tune, ChordFinder.WithChords(tune));
            scores["people"].Add(tune, tune);
        }
        Console.WriteLine(name);
        foreach (var (way, score) in scores)
            Console.WriteLine($"  {way}: {score}");
    }

    private static void PrintKeys(string name, IReadOnlyCollection<Tune> tunes)
    {
        var (tonics, thirds, modes) = (0, 0, 0);
        foreach (var tune in tunes)
        {
            var found = KeyFinder.Of(tune.Played());
            if (found.Tonic.PitchClass != tune.Key.Tonic.PitchClass)
                continue;
            tonics++;
            thirds += HarmonyRows.KeyOf(found.Mode) == HarmonyRows.KeyOf(tune.Key.Mode) ? 1 : 0;
            modes += found.Mode == tune.Key.Mode ? 1 : 0;
        }
        double Share(int count) => (double)count / tunes.Count;
        Console.WriteLine(
            $"{name}: tonic {Share(tonics):F3}, and third {Share(thirds):F3}, and mode {Share(modes):F3}"
        );
    }

    private static Tune With(TaughtTune tune, int[] path)
    {
        var chords = tune
            .Beats.Zip(path)
            .ToLookup(
                pair => pair.First.Bar,
                pair => new ChordAt(pair.First.At, Triad.Symbol(pair.Second, tune.Tune.Key))
            );
        return tune.Tune with { Bars = [.. tune.Tune.Bars.Select((bar, i) => bar with { Chords = [.. chords[i]] })] };
    }
}
