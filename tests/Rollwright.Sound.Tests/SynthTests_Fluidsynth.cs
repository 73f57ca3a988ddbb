using Rollwright.Audio;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Midi;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>
/// The same break's MIDI file, sounded by another synth: fluidsynth with the sampled banjo of a General MIDI sound font
/// (Debian packages fluidsynth, timgm6mb-soundfont). Note for note, both must start it and both must hold its pitch.
/// </summary>
public class SynthTests_Fluidsynth
{
    private const string SoundFont = "/usr/share/sounds/sf2/TimGM6mb.sf2";

    public static TheoryData<int> Capos => [0, 2];

    [Theory]
    [MemberData(nameof(Capos))]
    public void Note_for_note_both_synths_start_and_sound_the_same_pitch(int capo)
    {
        var played = (capo == 0 ? SampleBreaks.Small : SampleBreaks.SmallCapo2) with
        {
            Tempo = new Tempo(new Fraction(1, 2), 60),
        };
        var ours = Synth.Render(played);
        var theirs = Sampled(played);
        var strokes = Timeline.Of(played, new()).Strokes;
        var notes = strokes
            .Select(item => (item.Seconds, Key: played.KeyOf(item.Played.Stroke), item.Played.Stroke))
            .ToList();
        // A slur starts no sound of its own in ours, a note of MIDI does: starts are compared where a string is plucked.
        var plucked = notes.Where(note => note.Stroke.Slur is null).Select(note => note.Seconds).Distinct().ToList();
        var (oursAt, theirsAt) = (OnsetTests_Aubio.Heard(ours, 0.1), OnsetTests_Aubio.Heard(theirs, 0.1));
        var apart = plucked.Select(at => Nearest(theirsAt, at) - Nearest(oursAt, at)).Order().ToList();
        // The sampled banjo's attack comes some milliseconds after the note's time, always the same.
        var late = apart[apart.Count / 2];
        late.Should().BeInRange(0, 0.01);
        apart.Count(by => Math.Abs(by - late) < 0.004).Should().BeGreaterThanOrEqualTo(plucked.Count * 97 / 100);
        // Pitch counts for all notes.
        var (bothSound, offPitch, control) = (0, new List<string>(), 0);
        foreach (var (seconds, key, _) in notes)
        {
            var (here, there) = (Sounds(ours, seconds, key), Sounds(theirs, seconds, key));
            if (here is { } a && there is { } b)
            {
                bothSound++;
                if (Math.Abs(Ear.Cents(a, b)) > 15)
                    offPitch.Add($"{seconds:0.000} s, key {key}: {Ear.Cents(a, b):0} cents");
            }
            if (Sounds(ours, seconds, key + 1) is not null || Sounds(theirs, seconds, key + 1) is not null)
                control++;
        }
        offPitch.Should().BeEmpty();
        bothSound.Should().BeGreaterThanOrEqualTo(notes.Count * 95 / 100);
        // The same question asked about the semitone above is answered no, so that the answers above mean something.
        control.Should().BeLessThan(notes.Count / 10);
    }

    private static double Nearest(List<double> onsets, double seconds) =>
        onsets.MinBy(onset => Math.Abs(onset - seconds));

    // The frequency of the partial at a key's pitch (its first or second, where the first is weak) while the note rings, or
    // null where none stands out from what lies beside it.
    private static double? Sounds(Samples sound, double seconds, int key)
    {
        foreach (var partial in new[] { 1, 2 })
        {
            var hz = Ear.Hz(key) * partial;
            var part = sound.Interleaved.Slice((int)((seconds + 0.03) * sound.Rate), sound.Rate / 5);
            var here = Ear.Partial(part, sound.Rate, hz).Magnitude;
            var beside = Math.Max(
                Ear.Partial(part, sound.Rate, hz * Math.Pow(2, 1 / 12.0)).Magnitude,
                Ear.Partial(part, sound.Rate, hz / Math.Pow(2, 1 / 12.0)).Magnitude
            );
            if (here > 2 * beside)
                return Ear.Fundamental(sound.Interleaved, sound.Rate, hz, seconds + 0.03) / partial;
        }
        return null;
    }

    private static Samples Sampled(Break played)
    {
        Assert.SkipUnless(
            File.Exists(SoundFont),
            $"needs the sound font {SoundFont} (Debian: timgm6mb-soundfont), which is not installed"
        );
        var midi = Path.GetTempFileName() + ".mid";
        var wav = Path.GetTempFileName() + ".wav";
        try
        {
            File.WriteAllBytes(midi, MidiWriter.Write(played));
            string[] plain = ["-o", "synth.reverb.active=0", "-o", "synth.chorus.active=0"];
            var (code, _, error) = Outside.Run(
                "fluidsynth",
                ["-ni", "-r", "44100", "-T", "wav", "-O", "s16", .. plain, "-F", wav, SoundFont, midi]
            );
            code.Should().Be(0, error);
            var stereo = WavReader.Read(File.ReadAllBytes(wav));
            var (left, right) = (stereo.Channel(0), stereo.Channel(1));
            return new(stereo.Rate, 1, [.. left.Zip(right, (l, r) => (l + r) / 2)]);
        }
        finally
        {
            File.Delete(midi);
            File.Delete(wav);
        }
    }
}
