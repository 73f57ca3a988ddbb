using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening;
using Rollwright.Listening.Banjos;

// Listens to recordings, two at a time or as many as there are cores, and prints one line of JSON a recording: what
// `rollwright listen --json` would say, with the seconds that it took. table.py makes the table of it. With --banjo, the banjo
// is learnt first, from the sound banjo.wav two folders above each recording (banjo.py).
var threads = Environment.GetEnvironmentVariable("THREADS") is { } text ? int.Parse(text) : Environment.ProcessorCount;
var banjos = new ConcurrentDictionary<string, OwnBanjo?>();
Parallel.ForEach(
    args.Where(path => path != "--banjo"),
    new ParallelOptions { MaxDegreeOfParallelism = threads },
    path =>
    {
        var sound = WavReader.Read(File.ReadAllBytes(path));
        var options = args.Contains("--banjo")
            ? new ListenOptions { Banjo = banjos.GetOrAdd(Path.Combine(path, "../../banjo.wav"), Learn) }
            : ListenOptions.Default;
        var watch = Stopwatch.StartNew();
        var heard = Listener.Listen(sound, options);
        var line = JsonSerializer.Serialize(
            new
            {
                file = path,
                cents = heard.Cents,
                secondsPerWhole = heard.Break?.Tempo.SecondsPerWhole,
                barTimes = heard.BarTimes,
                setting = heard.Break is { } made ? $"{made.Setting.Tuning.Id} {made.Setting.Capo}" : null,
                seconds = watch.Elapsed.TotalSeconds,
                length = sound.Duration.TotalSeconds,
                notes = heard.Notes.Select(note => new
                {
                    onset = note.Onset,
                    pitch = note.Pitch,
                    @string = note.String,
                    fret = note.Fret,
                    finger = note.Finger is { } finger ? finger.ToString()[..1] : null,
                    confidence = note.Confidence,
                }),
            }
        );
        lock (Console.Out)
            Console.WriteLine(line);
    }
);

static OwnBanjo? Learn(string path)
{
    var banjo = BanjoLearner.Learn(WavReader.Read(File.ReadAllBytes(path)), TuningTable.OpenG);
    Console.Error.WriteLine(banjo is null ? $"{path}: no banjo learnt" : OwnBanjoText.Write(banjo));
    return banjo;
}
