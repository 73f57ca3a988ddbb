using System.Globalization;
using System.Text;
using Rollwright.Formats.Abc;
using Rollwright.Listening.Melodies;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

// Trains data/metres.txt: usage COLLECTION.abc… TUNES-FOLDER OUT. What the folder holds is measured on, so tunes of the same
// name are left out.
static string Plain(string title) =>
    new([.. title.ToLowerInvariant().Replace("the", "", StringComparison.Ordinal).Where(char.IsLetter)]);
var measured = Directory
    .GetFiles(args[^2], "*.abc")
    .SelectMany(file => AbcReader.Read(File.ReadAllBytes(file), file).Tunes)
    .SelectMany(tune => tune.OtherTitles.Prepend(tune.Title))
    .Select(Plain)
    .ToHashSet();
var tunes = args[..^2]
    .SelectMany(file => AbcReader.Read(File.ReadAllBytes(file), file).Tunes)
    .Where(tune => !tune.OtherTitles.Prepend(tune.Title).Any(title => measured.Contains(Plain(title))))
    .ToList();
var place = new Fraction(1, 8 * RhythmGrid.PerStep);
var all = new double[MetreEvidence.Kinds];
var rows = new Dictionary<TimeSignature, (double[][] Kinds, double[] First, double[] Last, int Count)>();
foreach (var time in (TimeSignature[])[new(4, 4), new(6, 8), new(3, 4), new(9, 8)])
{
    var steps = (int)(time.Bar / new Fraction(1, 8)).ToDouble();
    double[] Ones(int count) => [.. Enumerable.Repeat(1.0, count)];
    var kinds = Enumerable.Range(0, steps).Select(_ => Ones(MetreEvidence.Kinds)).ToArray();
    var (first, last, count) = (Ones(steps), Ones(steps), 0);
    foreach (
        var tune in tunes.Where(tune =>
            tune.Time == time || (time == TimeSignature.Common && tune.Time == TimeSignature.Cut)
        )
    )
    {
        if (tune.Bars.Any(bar => bar.Time.Bar != time.Bar))
            continue;
        var played = tune.Played();
        if (played.Length < 16)
            continue;
        // Where the first whole bar begins, and the first note before or in it.
        var opening = tune.Bars[tune.Order[0]];
        var pickup = opening.IsPartial ? opening.Length : Fraction.Zero;
        var places = played.Select(note => ((note.At - played[0].At) / place).ToDouble()).ToList();
        if (places.Any(at => at != Math.Floor(at)))
            continue;
        var start = ((played[0].At - pickup) / new Fraction(1, 8)).ToDouble();
        if (start != Math.Floor(start))
            continue;
        var line = MetreEvidence.Of(
            [.. places.Select(at => (int)at)],
            (int)((played[^1].End - played[0].At) / place).ToDouble(),
            [.. played.Select(note => note.Pitch.Midi)],
            RhythmGrid.PerStep
        );
        int Place(int step) => ((int)start + step + (steps * 2)) % steps;
        for (var i = 0; i < line.Length; i++)
            kinds[Place(i)][line[i]]++;
        first[Place(0)]++;
        last[Place(line.Length - 1)]++;
        count++;
    }
    foreach (var row in kinds)
        for (var kind = 0; kind < all.Length; kind++)
            all[kind] += row[kind] / kinds.Sum(one => one.Sum());
    rows[time] = (kinds, first, last, count);
    Console.WriteLine($"{time}: {count} tunes");
}
var text = new StringBuilder(
    "# How likely a kind of beginning is at each place of a bar, in eighths: natural logarithms of odds against its share in\n"
        + "# tunes of any metre; first, last: of the chance that the first or the last note of a tune stands there. Trained on an\n"
        + "# open collection by bench/Rollwright.MetreTraining (docs/listening.md).\n"
);
string Line(IEnumerable<string> cells) => string.Join(" | ", cells.Select(cell => cell.PadLeft(10))) + "\n";
text.Append(Line(MetreTable.Columns));
string Number(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);
foreach (var (time, (kinds, first, last, _)) in rows)
    for (var step = 0; step < kinds.Length; step++)
        text.Append(
            Line([
                $"{time}",
                $"{step}",
                .. kinds[step]
                    .Select((value, kind) => Number(Math.Log(value / kinds[step].Sum() / (all[kind] / all.Sum())))),
                Number(Math.Log(first[step] / first.Sum())),
                Number(Math.Log(last[step] / last.Sum())),
            ])
        );
File.WriteAllText(args[^1], text.ToString());
