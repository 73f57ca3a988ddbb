using System.Diagnostics;
using System.Text.Json;
using Rollwright.Audio.Wave;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Meanings;

// Lays takes beside what was meant and prints one line of JSON a take; table.py makes the table of it.
// Arguments: pairs of a recording and the notes meant, as the listening bench writes them.
for (var i = 0; i + 1 < args.Length; i += 2)
{
    var (sound, meant) = (WavReader.Read(File.ReadAllBytes(args[i])), Read(args[i + 1]));
    var watch = Stopwatch.StartNew();
    var found = BesideBreak.Compare(sound, meant);
    Console.WriteLine(
        JsonSerializer.Serialize(
            new
            {
                file = args[i],
                seconds = watch.Elapsed.TotalSeconds,
                length = sound.Duration.TotalSeconds,
                follows = found.Follows,
                found = found.Found,
                stretches = found.Stretches.Length,
                @ref = found.Notes.Select(note => new
                {
                    id = note.Note.Id,
                    label = $"{note.Label}".ToLowerInvariant(),
                    onset = note.Onset,
                    late = note.Late,
                    instead = note.Instead,
                }),
                extra = found.Added.Select(note => new { onset = note.Onset, pitch = note.Pitch }),
            }
        )
    );
}

// The bench's breaks are 4/4 in steps of an eighth; two bars are a phrase.
static Meant Read(string path)
{
    var told = JsonDocument.Parse(File.ReadAllText(path)).RootElement;
    var whole = 240 / told.GetProperty("bpm").GetDouble();
    HashSet<int> parts = told.TryGetProperty("parts", out var begin)
        ? [.. begin.EnumerateArray().Select(bar => bar.GetInt32())]
        : [0];
    var notes = told.GetProperty("notes")
        .EnumerateArray()
        .Select(note =>
        {
            // Times are rounded to a tenth of a millisecond there; the music is in sixteenths.
            var at = Math.Round(note.GetProperty("onset").GetDouble() / whole * 16) / 16;
            return new MeantNote(note.GetProperty("id").GetInt32(), at, note.GetProperty("pitch").GetInt32(), (int)at)
            {
                IsSlurred = note.GetProperty("tech").GetString() != "pick",
            };
        })
        .OrderBy(note => note.At)
        .ToList();
    var bars = notes[^1].Bar + 1;
    return new()
    {
        Notes = [.. notes],
        Bars = [.. Enumerable.Range(0, bars).Select(bar => new MeantBar(bar, 1, bar, $"{bar + 1}"))],
        Phrases =
        [
            .. Enumerable
                .Range(0, bars)
                .Chunk(2)
                .Select((two, i) => new MeantPhrase(i + 1, 1, [.. two]) { OpensPart = parts.Contains(two[0]) }),
        ],
        WholeNote = whole,
    };
}
