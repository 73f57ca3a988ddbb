using CsCheck;
using NAudio.Midi;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Midi;
using Rollwright.Music.Metre;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Midi;

/// <summary>Standard MIDI files, read back by NAudio, an outside reader.</summary>
public class MidiWriterTests
{
    [Fact]
    public void Every_stroke_starts_when_it_is_played_repeats_taken() =>
        BreakGenerator.Breaks.Sample(made =>
        {
            var played = made with { Swing = null };
            var told = MidiNotes.Read(MidiWriter.Write(played)).Select(note => (Math.Round(note.At * 960), note.Key));
            var asked = played
                .Played()
                .Select(stroke => (Math.Round(stroke.At.ToDouble() * 3840), played.KeyOf(stroke.Stroke)))
                .Distinct()
                .Order();
            told.Order().Should().Equal(asked);
        });

    [Fact]
    public void A_swung_pair_sounds_two_to_one_and_the_pickup_leads_in_late()
    {
        var swung = SampleBreaks.Small with { Swing = Swing.TwoToOne };
        MidiNotes
            .Read(MidiWriter.Write(swung))
            .Take(6)
            .Select(note => Math.Round(note.At, 3))
            .Should()
            .Equal(0, 0.667, 1, 1.667, 2, 2.667);
    }

    [Fact]
    public void A_note_ends_when_its_string_or_its_key_is_played_again_and_after_a_bar_at_the_latest() =>
        BreakGenerator.Breaks.Sample(played =>
        {
            var notes = MidiNotes.Read(MidiWriter.Write(played));
            notes
                .Should()
                .OnlyContain(note => note.Length > 0 && note.Length <= (played.Time.Bar.ToDouble() * 4) + 1e-9);
            foreach (var key in notes.GroupBy(note => note.Key))
                key.Zip(key.Skip(1))
                    .Should()
                    .OnlyContain(pair => pair.First.At + pair.First.Length <= pair.Second.At + 1e-9);
        });

    [Fact]
    public void The_file_is_one_channel_of_program_106_counted_from_1_with_tempo_and_metre()
    {
        using var stream = new MemoryStream(MidiWriter.Write(SampleBreaks.SmallCapo2));
        var events = new MidiFile(stream, strictChecking: true).Events.SelectMany(track => track).ToList();
        events.OfType<PatchChangeEvent>().Should().ContainSingle().Which.Patch.Should().Be(105);
        events.OfType<NoteEvent>().Should().OnlyContain(note => note.Channel == 1);
        // Half = 80 is quarter = 160.
        events.OfType<TempoEvent>().Should().ContainSingle().Which.Tempo.Should().BeApproximately(160, 0.01);
        var time = events.OfType<TimeSignatureEvent>().Should().ContainSingle().Subject;
        (time.Numerator, 1 << time.Denominator).Should().Be((2, 2));
    }
}
