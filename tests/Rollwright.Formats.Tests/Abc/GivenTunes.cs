using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>The tunes of ../shared/tunes, as tunes and as something like breaks, for what we write to be heard by others.</summary>
internal static class GivenTunes
{
    public static IEnumerable<(string Name, Tune Tune)> All()
    {
        var files = Directory.GetFiles(Places.NeedShared("tunes"), "*.abc").Order(StringComparer.Ordinal).ToList();
        files.Should().HaveCountGreaterThan(40);
        foreach (var file in files)
        {
            var text = Abc2midi.WithoutTiesOverRepeats(File.ReadAllText(file));
            yield return (Path.GetFileName(file), AbcReader.Read(text, "tune.abc").Tunes.Single());
        }
    }

    // Every note of the tune on string 1 where it has it, else on string 4, an open string with it on every fourth; which
    // string does not matter here.
    public static Break AsBreak(Tune tune)
    {
        var setting = new Setting(TuningTable.OpenG, 0, tune.Key, -12);
        return new()
        {
            Title = tune.Title,
            Setting = setting,
            Time = tune.Time,
            Tempo = new(tune.Time.Beat, 80),
            Bars =
            [
                .. tune.Bars.Select(bar => new BreakBar
                {
                    Length = bar.Length,
                    Time = bar.Time,
                    Marks = bar.Marks,
                    Chords = bar.Chords,
                    Strokes = [.. bar.Notes.SelectMany((note, i) => Strokes(note, i % 4 == 0))],
                }),
            ],
        };
    }

    private static IEnumerable<Stroke> Strokes(Note note, bool withOpen)
    {
        var low = note.Pitch.Midi - 12 < 62;
        var stroke = new Stroke
        {
            At = note.At,
            Length = note.Length,
            String = low ? 4 : 1,
            Fret = Math.Max(0, note.Pitch.Midi - 12 - (low ? 50 : 62)),
            Right = RightFinger.T,
        };
        yield return stroke;
        if (withOpen)
            yield return stroke with
            {
                String = 3,
                Fret = 0,
            };
    }
}
