using Rollwright.Formats.Abc;
using Rollwright.MetreTraining;

// Trains data/metres.txt, or with --takes data/take-metres.txt: usage [--takes] COLLECTION.abc… TUNES-FOLDER OUT. What the
// folder holds is measured on, so tunes of the same name are left out.
static string Plain(string title) =>
    new([.. title.ToLowerInvariant().Replace("the", "", StringComparison.Ordinal).Where(char.IsLetter)]);
var measured = Directory
    .GetFiles(args[^2], "*.abc")
    .SelectMany(file => AbcReader.Read(File.ReadAllBytes(file), file).Tunes)
    .SelectMany(tune => tune.OtherTitles.Prepend(tune.Title))
    .Select(Plain)
    .ToHashSet();
var tunes = args[..^2]
    .Where(arg => arg != "--takes")
    .SelectMany(file => AbcReader.Read(File.ReadAllBytes(file), file).Tunes)
    .Where(tune => !tune.OtherTitles.Prepend(tune.Title).Any(title => measured.Contains(Plain(title))))
    .ToList();
File.WriteAllText(args[^1], args.Contains("--takes") ? TakeTraining.Train(tunes) : LineTraining.Train(tunes));
