// Does a break still say which tune it is? Prints the rank of the right tune for every break of a folder.
using System.Diagnostics;
using Rollwright.Recognition;

if (args.Length != 3 || !args.All(Directory.Exists))
{
    Console.Error.WriteLine(
        "usage: recognition COLLECTION TUNES BREAKS, three folders: many tunes (*.abc), the tunes of the breaks "
            + "(NAME.abc), the breaks (NAME.mid)"
    );
    return 2;
}
var clock = Stopwatch.StartNew();
var collection = Candidate.ReadAll(args[0]);
var breaks = Directory
    .GetFiles(args[2], "*.mid")
    .Order(StringComparer.Ordinal)
    .Where(path => File.Exists(Path.Combine(args[1], Path.GetFileNameWithoutExtension(path) + ".abc")))
    .ToArray();
if (breaks.Length == 0)
{
    Console.Error.WriteLine($"{args[2]}: no NAME.mid here has a NAME.abc in {args[1]}");
    return 2;
}
var verdicts = breaks
    .AsParallel()
    .AsOrdered()
    .Select(path =>
        Verdict.Of(
            Heard.Read(path),
            Candidate.ReadOne(Path.Combine(args[1], Path.GetFileNameWithoutExtension(path) + ".abc")),
            collection
        )
    )
    .ToArray();
foreach (var verdict in verdicts)
    Console.WriteLine(
        $"{verdict.Name, -38} rank {verdict.Rank, 4}  score {verdict.Score, 7:0.0}  "
            + $"next {verdict.RivalScore, 7:0.0} {verdict.Rival.Title} ({verdict.Rival.Source})"
            + (verdict.InCollection == 0 ? "" : $"; {verdict.InCollection} of the collection are the same tune")
    );
var first = verdicts.Count(verdict => verdict.Rank == 1);
Console.WriteLine(
    $"{first} of {verdicts.Length} first ({100.0 * first / verdicts.Length:0.#} %) among {collection.Length + 1} tunes; "
        + $"{verdicts.Count(verdict => verdict.InCollection > 0)} are in the collection, the others were added; "
        + $"least lead {verdicts.Min(verdict => verdict.Score - verdict.RivalScore):0.0}; {clock.Elapsed.TotalSeconds:0.0} s"
);
foreach (var verdict in verdicts.Where(verdict => verdict.Rank > 1))
    Console.WriteLine($"not recognised: {verdict.Name}, taken for {verdict.Rival.Title} ({verdict.Rival.Source})");
return 0;
