using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Midi;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Midi;

/// <summary>Hornpipes against abc2midi (Debian package abcmidi), which plays pairs of even notes two to one.</summary>
public class SwingTests_Abc2midi
{
    // abc2midi puts the first note a tick late; see Abc2midi.
    private const double Tolerance = 4 / 480.0;

    [Theory]
    [InlineData("R:hornpipe\nM:4/4\nL:1/8\nK:G\nGABc dedc|B2AB c2BA|GBAc BdAc|G2B2 G4|")]
    [InlineData("R:Hornpipe\nM:2/4\nL:1/16\nK:G\nGABc dedc|B2AB c2BA|GBAc BdAc|G2B2 G4|")]
    [InlineData("R:hornpipe\nM:C|\nL:1/8\nK:G\nGABc dedc|B2AB c2BA|GBAc BdAc|G2B2 G4|")]
    [InlineData("R:reel\nM:4/4\nL:1/8\nK:G\nGABc dedc|B2AB c2BA|GBAc BdAc|G2B2 G4|")]
    public void A_tune_of_even_pairs_is_swung_as_abc2midi_swings_it(string tune)
    {
        var text = "X:1\nT:The Kettle Path\n" + tune + "\n";
        var ours = MidiNotes.Read(MidiWriter.Write(AsBreak(text))).Select(note => note.At).ToList();
        var theirs = Play(text);
        theirs.Should().HaveSameCount(ours);
        theirs.Zip(ours).Should().OnlyContain(pair => Math.Abs(pair.First - pair.Second) <= Tolerance);
    }

    // Every note of the tune as a stroke at its time; which string does not matter here.
    private static Break AsBreak(string text)
    {
        var tune = AbcReader.Read(text, "tune.abc").Tunes.Single();
        return SampleBreaks.Small with
        {
            Time = tune.Time,
            Swing = tune.Swing,
            Spans = [],
            Bars =
            [
                .. tune.Bars.Select(bar => new BreakBar
                {
                    Length = bar.Length,
                    Time = bar.Time,
                    Strokes =
                    [
                        .. bar.Notes.Select(note => new Banjo.Strokes.Stroke
                        {
                            At = note.At,
                            Length = note.Length,
                            String = 1,
                            Fret = 0,
                            Right = Banjo.Strokes.RightFinger.T,
                            IsMelody = true,
                        }),
                    ],
                }),
            ],
        };
    }

    private static List<double> Play(string text)
    {
        var (abc, midi) = (Path.GetTempFileName(), Path.GetTempFileName());
        try
        {
            File.WriteAllText(abc, text);
            Outside.Run("abc2midi", abc, "-NGUI", "-NGRA", "-o", midi);
            return [.. MidiNotes.Read(File.ReadAllBytes(midi)).Select(note => note.At)];
        }
        finally
        {
            File.Delete(abc);
            File.Delete(midi);
        }
    }
}
