using System.Diagnostics;
using Rollwright.Listening.Melodies;
using Rollwright.Listening.Tests.Melodies;
using Rollwright.MelodyHearing;

// Tunes in ABC, played by fluidsynth on four instruments of two sound fonts, heard and counted: usage [--only INSTRUMENT]
// TUNE.abc…
var only = args is ["--only", var wanted, ..] ? wanted : null;
foreach (var (program, name) in new[] { (40, "fiddle"), (78, "whistle"), (73, "flute"), (74, "recorder") })
foreach (var font in PlayedTunes.Fonts)
{
    if (only is not null && only != name)
        continue;
    var rows = args.Skip(only is null ? 0 : 2)
        .Select(file => Heard(file, program, font))
        .OrderBy(row => row.F)
        .ToList();
    Console.WriteLine(
        $"{name}, {Path.GetFileNameWithoutExtension(font)}: {rows.Count} tunes, note F median {rows[rows.Count / 2].F:0.000}, "
            + $"mean {rows.Average(row => row.F):0.000}, at least .95 in {rows.Count(row => row.F >= 0.95)}; key {rows.Count(row => row.Key)}, "
            + $"metre and bar lines {rows.Count(row => row.Bars)}, 95 % of notes in pitch and place {rows.Count(row => row.Part >= 0.95)}, "
            + $"everything {rows.Count(row => row.Key && row.Bars && row.Part > 0.999)}; {rows.Average(row => row.Speed):0} times real time"
    );
    Console.WriteLine($"  {Losses.Of([.. rows.Select(row => row.Notes)])}");
}

static (double F, bool Key, bool Bars, double Part, double Speed, Losses.Tune Notes) Heard(
    string file,
    int program,
    string font
)
{
    var tune = PlayedTunes.Read(file);
    var truth = PlayedTunes.Notes(tune, PlayedTunes.SecondsPerWhole(tune));
    var wav = PlayedTunes.Sounded(truth, program, font);
    try
    {
        var watch = Stopwatch.StartNew();
        using var sound = PlayedTunes.Open(wav);
        var heard = MelodyListener.Listen(sound);
        var speed = truth[^1].End / watch.Elapsed.TotalSeconds;
        var notes = heard.Notes.Select(note => (note.Onset, note.Pitch)).ToList();
        var f = PlayedTunes.NoteF(truth, notes);
        var both = new Losses.Tune([.. truth.Select(note => (note.Onset, note.Key))], notes);
        if (heard.Tune is not { } found)
            return (f, false, false, 0, speed, both);
        var (part, _, bars) = PlayedTunes.Alike(tune, found);
        return (f, found.Key == tune.Key, bars, part, speed, both);
    }
    finally
    {
        File.Delete(wav);
    }
}
