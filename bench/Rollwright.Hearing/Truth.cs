using System.Collections.Immutable;
using System.Text.Json;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Takes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Hearing;
static class Truth
{
    public static void Run(string path, int phase)
    {
        using var doc = JsonDocument.Parse(File.ReadAllText(path));
        var e = 30 / doc.RootElement.GetProperty("bpm").GetDouble();
        var notes = doc.RootElement.GetProperty("notes").EnumerateArray().Select(n => (On: n.GetProperty("onset").GetDouble(), Key: n.GetProperty("pitch").GetInt32(), Tech: n.GetProperty("tech").GetString()!)).ToList();
        var by = notes.GroupBy(n => (int)Math.Round((n.On - .5) / e * 2) + phase).OrderBy(g => g.Key).ToList();
        var moments = new List<LaidMoment>();
        foreach (var g in by)
            moments.Add(new(new(g.Min(n => n.On), [new([.. g.Select(n => n.Key).Distinct().Order()], 0)], g.Any(n => n.Tech == "pick") ? 1 : 0), g.Key / 16, new Fraction(g.Key % 16, 16)));
        var key = new Key(new(Letter.G));
        var last = by[^1].Key / 16;
        var bars = new List<TuneBar>();
        for (var b = 0; b <= last; b++)
        {
            var inside = moments.Where(m => m.Bar == b).ToList();
            bars.Add(new TuneBar { Length = new Fraction(1), Time = TimeSignature.Common, Key = key, Notes = [.. inside.SelectMany((m, i) => m.Moment.Keys.Select(k => new Note(m.At, (i + 1 < inside.Count ? inside[i + 1].At : new Fraction(1)) - m.At, Pitch.FromMidi(k, key.Spell(k % 12)))))] });
        }
        var tune = new Tune { Key = key, Time = TimeSignature.Common, Bars = [.. bars] };
        var setting = new Setting(TuningTable.OpenG, 0, key, 0);
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var solver = HandFinder.Solve(tune, moments, setting);
        if (!solver.Best.IsPossible) { Console.Error.WriteLine($"{path} impossible"); return; }
        Console.Error.WriteLine($"{Path.GetFileName(path)} {solver.Best.Total} {watch.ElapsedMilliseconds} ms");
        var said = new List<object>();
        for (var step = 0; step < solver.Lattice.Grid.Steps.Length; step++)
        {
            var place = solver.Lattice.Grid.Steps[step];
            var m = moments.FirstOrDefault(m => m.Bar == place.Bar && m.At == place.At);
            if (m is null) continue;
            var done = solver.Best.Path[step];
            if (done.SlurString != 0) said.Add(Note(m.Moment.Onset, done.SlurString, done.Shape.FretOn(done.SlurString), null));
            foreach (var (f, on) in done.Event.Plucks) said.Add(Note(m.Moment.Onset, on, done.Shape.FretOn(on), f.ToString()));
        }
        Console.WriteLine(JsonSerializer.Serialize(new { file = path, cents = 0, seconds = 1, length = 1, notes = said }));
        object Note(double t, int s, int f, string? finger) => new Dictionary<string, object?> { ["onset"] = t, ["pitch"] = TuningTable.OpenG.KeyOf(s, f), ["string"] = s, ["fret"] = f, ["finger"] = finger };
    }
}
