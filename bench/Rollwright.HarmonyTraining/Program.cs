using System.Diagnostics;
using Rollwright.Arranging.Chording;
using Rollwright.Formats.Abc;
using Rollwright.HarmonyTraining;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Tunes;

var file = args[1];
var all = AbcReader.Read(File.ReadAllBytes(file), "nottingham.abc").Tunes;
var taught = all.Select((tune, i) => (tune, i)).Where(p => p.i % 2 == 0 && p.tune.HasChords).Select(p => TaughtTune.Of(p.tune)).ToArray();
Console.WriteLine($"{all.Length} tunes, {taught.Length} taught, {taught.Sum(t => t.Known.Count(k => k >= 0))} beats");
if (args[0] == "stats")
{
    var modes = taught.GroupBy(t => t.Tune.Key.Mode).Select(g => $"{g.Key} {g.Count()}");
    Console.WriteLine(string.Join(", ", modes));
    foreach (var third in new[] { 0, 1 })
    {
        var counts = new int[24];
        foreach (var t in taught)
            for (var i = 0; i < t.Known.Length; i++)
                if (t.Known[i] >= 0 && t.Beats[i].Key == third)
                    counts[Triad.SeenFrom(t.Known[i], t.Beats[i].Tonic)]++;
        Console.WriteLine(string.Join(' ', counts.Select((c, i) => $"{i / 2}{(i % 2 == 0 ? "" : "m")}:{c * 1000 / Math.Max(1, counts.Sum())}")));
    }
    // equal bars, equal chords?
    var (same, pairs) = (0, 0);
    foreach (var t in taught)
    {
        foreach (var g in t.Beats.Select((b, i) => (b.Like, i)).GroupBy(p => p.Like, p => p.i))
        {
            var m = g.Where(i => t.Known[i] >= 0).ToArray();
            for (var i = 1; i < m.Length; i++) { pairs++; if (t.Known[m[i]] == t.Known[m[0]]) same++; }
        }
    }
    Console.WriteLine($"equal beats of equal bars {pairs}, same chord {(double)same / pairs:F3}");
    double tonic = taught.Average(t => t.Known.Where(k => k >= 0).DefaultIfEmpty(0).Average(k => k == (t.Beats[0].Key) ? 1.0 : 0));
    Console.WriteLine($"tonic per tune {tonic:F3}");
    var allBeats = taught.SelectMany(t => t.Known.Select(k => (k, t.Beats[0].Key))).Where(p => p.k >= 0).ToArray();
    Console.WriteLine($"tonic per beat {allBeats.Count(p => p.k == p.Key) / (double)allBeats.Length:F3}");
    var changes = taught.Average(t => t.Known.Zip(t.Known.Skip(1)).Count(p => p.First != p.Second) / (double)t.Tune.Bars.Length);
    Console.WriteLine($"changes a bar {changes:F2}");
}
if (args[0] == "cv")
{
    var plan = new TrainingPlan();
    foreach (var arg in args.Skip(2))
    {
        var kv = arg.Split('=');
        plan = kv[0] switch { "rounds" => plan with { Rounds = int.Parse(kv[1]) }, "rate" => plan with { Rate = double.Parse(kv[1]) }, "shrink" => plan with { Shrink = double.Parse(kv[1]) }, _ => plan };
    }
    const int folds = 3;
    var watch = Stopwatch.StartNew();
    var models = new HarmonyTable[folds];
    Parallel.For(0, folds, new ParallelOptions { MaxDegreeOfParallelism = 2 }, fold =>
    {
        models[fold] = new Trainer(plan).Train([.. taught.Where((_, i) => i % folds != fold)],
            (r, l) => { if (fold == 0) Console.WriteLine($"round {r} {l:F3} {watch.Elapsed.TotalSeconds:F0}s"); });
    });
    foreach (var shared in new[] { 0, 0.5, 1 })
    foreach (var scale in new[] { 0.0, 0.3, 0.6, 1.0 })
    {
        var prices = new PathPrices(0.25 * scale, 0.5 * scale, 1.0 * scale, shared);
        double same = 0, count = 0, tuneMean = 0, tunes = 0, changes = 0, bars = 0;
        for (var i = 0; i < taught.Length; i++)
        {
            var made = ChordFinder.WithChords(taught[i].Bare, models[i % folds], prices);
            var (s, a) = ChordAgreement.Count(taught[i].Tune, made);
            if (a == 0) continue;
            same += s; count += a; tuneMean += s / (double)a; tunes++;
            var chords = ChordAgreement.ByBeat(made).ToArray();
            changes += chords.Zip(chords.Skip(1)).Count(p => p.First != p.Second); bars += made.Bars.Length;
        }
        Console.WriteLine($"shared {shared} price {scale}: by beat {same / count:F4}, by tune {tuneMean / tunes:F4}, changes a bar {changes / bars:F2}");
    }
}
