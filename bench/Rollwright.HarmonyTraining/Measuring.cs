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

    private static Tune With(TaughtTune tune, int[] path)
    {
        var chords = tune.Beats.Zip(path).ToLookup(
            pair => pair.First.Bar,
            pair => new ChordAt(pair.First.At, Triad.Symbol(pair.Second, tune.Tune.Key))
        );
        return tune.Tune with { Bars = [.. tune.Tune.Bars.Select((bar, i) => bar with { Chords = [.. chords[i]] })] };
    }
}
