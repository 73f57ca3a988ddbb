using System.Text.Json;
using Rollwright.Audio.Wave;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Meanings;

foreach (var path in args)
{
    var piece = Path.GetFileNameWithoutExtension(path);
    var root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, "../../.."));
    var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(root, "truth", piece + "_break.json"))).RootElement;
    var whole = 240 / json.GetProperty("bpm").GetDouble();
    var notes = json.GetProperty("notes").EnumerateArray().Select(n => (Id: n.GetProperty("id").GetInt32(), At: n.GetProperty("onset").GetDouble() / whole, Pitch: n.GetProperty("pitch").GetInt32(), Slur: n.GetProperty("tech").GetString() != "pick")).OrderBy(n => n.At).ToList();
    var bars = (int)(notes[^1].At + 0.001) + 1;
    var meant = new Meant
    {
        Notes = [.. notes.Select(n => new MeantNote(n.Id, Math.Round(n.At * 64) / 64, n.Pitch, (int)(n.At + 0.001)) { IsSlurred = n.Slur })],
        Bars = [.. Enumerable.Range(0, bars).Select(b => new MeantBar(b, 1, b, $"{b + 1}"))],
        Phrases = [.. Enumerable.Range(0, (bars + 1) / 2).Select(p => new MeantPhrase(p + 1, 1, [.. Enumerable.Range(2 * p, Math.Min(2, bars - (2 * p)))]))],
        WholeNote = whole,
    };
    Console.WriteLine("file " + path);
    Console.WriteLine(BesideBreak.Dump(WavReader.Read(File.ReadAllBytes(path)), meant));
}
