using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Midi;
using Rollwright.Formats.Tests.Abc;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Midi;

public class MidiReaderTests
{
    // Format 1, 96 ticks a quarter: a track of metre and tempo, a track of notes with running status, ends by velocity 0.
    private static readonly byte[] Handmade =
    [
        .. "MThd"u8,
        .. (byte[])[0, 0, 0, 6, 0, 1, 0, 2, 0, 96],
        .. "MTrk"u8,
        .. (byte[])[0, 0, 0, 19],
        .. (byte[])[0, 0xFF, 0x58, 4, 3, 2, 24, 8],
        .. (byte[])[0, 0xFF, 0x51, 3, 0x07, 0xA1, 0x20],
        .. (byte[])[0, 0xFF, 0x2F, 0],
        .. "MTrk"u8,
        .. (byte[])[0, 0, 0, 30],
        .. (byte[])[0, 0x90, 67, 80, 48, 67, 0, 0, 69, 80, 48, 69, 0, 0, 71, 80, 96, 71, 0],
        .. (byte[])[0, 72, 80, 0x81, 0x40, 72, 0, 0, 0xFF, 0x2F, 0],
    ];

    [Fact]
    public void Format_1_with_running_status_is_read_in_the_bars_of_its_metre()
    {
        var reading = MidiReader.Read(Handmade, "hand.mid");
        reading.Messages.Should().BeEmpty();
        var tune = reading.Tune!;
        tune.Time.Should().Be(new TimeSignature(3, 4));
        tune.Tempo.Should().Be(new Tempo(new(1, 4), 120));
        reading.Key.Should().BeNull("the file does not say");
        // G A as eighths, B as a quarter, C as a half tied over the bar line.
        tune.Bars.Should().HaveCount(2);
        tune.Bars[1].Notes.Single().TiedFromBefore.Should().BeTrue();
        tune.Played()
            .Select(note => (note.At, note.Length, note.Pitch.Midi))
            .Should()
            .Equal(
                (Fraction.Zero, new(1, 8), 67),
                (new(1, 8), new(1, 8), 69),
                (new(1, 4), new(1, 4), 71),
                (new(1, 2), new(1, 2), 72)
            );
    }

    [Fact]
    public void A_pickup_moves_the_bar_lines()
    {
        var tune = MidiReader.Read(Handmade, "hand.mid", new() { Pickup = new(1, 4) }).Tune!;
        tune.Bars.Select(bar => bar.Length).Should().Equal(new Fraction(1, 4), new(3, 4));
        tune.Bars[1].Notes[0].Pitch.Midi.Should().Be(71);
    }

    [Fact]
    public void A_track_or_channel_can_be_chosen()
    {
        MidiReader.Read(Handmade, "hand.mid", new() { Track = 2 }).Tune.Should().NotBeNull();
        var none = MidiReader.Read(Handmade, "hand.mid", new() { Track = 1 });
        none.Tune.Should().BeNull();
        none.Messages.Single().What.Should().Be("the file holds no note in track 1");
        MidiReader
            .Read(Handmade, "hand.mid", new() { Channel = 5 })
            .Messages.Single()
            .What.Should()
            .Be("the file holds no note on channel 5");
    }

    // What a player makes of straight eighths and a triplet, up to 15 ms early or late at 120 a minute.
    [Fact]
    public void Times_that_are_a_little_off_come_to_the_grid_that_is_meant()
    {
        Fraction[] meant =
        [
            Fraction.Zero,
            new(1, 8),
            new(1, 4),
            new(1, 3),
            new(5, 12),
            new(1, 2),
            new(5, 8),
            new(3, 4),
        ];
        Gen.Double[-0.015, 0.015]
            .Array[meant.Length]
            .Sample(off =>
            {
                var sounds = meant
                    .Select((at, i) => (On: Math.Max(0, (at.ToDouble() * 4) + (off[i] * 2)), Key: 60 + i))
                    .Select(note => new MidiSound(note.On, note.On + 0.2, note.Key))
                    .ToList();
                Quantising.Notes(sounds).Select(note => note.At).Should().Equal(meant);
            });
    }

    // Track 2 low and fuller, track 3 high, both with enough notes to be a melody; track 4 higher still, with one note only.
    private static readonly byte[] Several =
    [
        .. "MThd"u8,
        .. (byte[])[0, 0, 0, 6, 0, 1, 0, 4, 0, 96],
        .. Track([0, 0xFF, 0x58, 4, 4, 2, 24, 8]),
        .. Track([0, 0x90, 43, 80, 48, 43, 0, 0, 50, 80, 48, 50, 0, 0, 43, 80, 48, 43, 0]),
        .. Track([0, 0x91, 67, 80, 48, 67, 0, 3, 69, 80, 45, 69, 0]),
        .. Track([0, 0x92, 96, 80, 48, 96, 0]),
    ];

    private static byte[] Track(byte[] events) =>
        [.. "MTrk"u8, 0, 0, 0, (byte)(events.Length + 4), .. events, 0, 0xFF, 0x2F, 0];

    [Fact]
    public void The_melody_is_chosen_and_said_and_can_be_chosen_otherwise()
    {
        var reading = MidiReader.Read(Several, "several.mid");
        reading.Tune!.Played().Select(note => note.Pitch.Midi).Should().Equal(67, 69);
        reading.Messages[0].What.Should().StartWith("track 3 channel 2 is read as the melody");
        MidiReader.Read(Several, "several.mid", new() { Track = 2 }).Tune!.Played().Should().HaveCount(3);
        MidiReader.Read(Several, "several.mid", new() { Channel = 3 }).Tune!.Played().Should().ContainSingle();
        MidiReader
            .Read(Several, "several.mid", new() { Together = true })
            .Messages[0]
            .What.Should()
            .Contain("put together");
    }

    // The second note of track 3 begins 3/96 of a quarter after its eighth.
    [Fact]
    public void What_is_moved_to_the_grid_is_said()
    {
        var reading = MidiReader.Read(Several, "several.mid", new() { Track = 3 });
        reading.Tune!.Played().Select(note => note.At).Should().Equal(Fraction.Zero, new(1, 8));
        reading
            .Messages.Single()
            .What.Should()
            .Be("1 of 2 notes were moved to the grid, at most by 0.03 of a quarter note (quarter 1.53)");
    }

    [Fact]
    public void A_break_that_was_written_comes_back_note_for_note()
    {
        var played = SampleBreaks.SmallCapo2;
        var reading = MidiReader.Read(MidiWriter.Write(played), "break.mid");
        Attacks(reading.Tune!)
            .Should()
            .Equal(played.Played().Select(stroke => (stroke.At, played.KeyOf(stroke.Stroke))).Distinct().Order());
        reading.Tune!.Title.Should().Be(played.Title);
        reading.Tune.Time.Should().Be(played.Time);
        reading.Tune.Tempo.Should().Be(played.Tempo);
        reading.Key.Should().Be(played.Setting.SoundingKey);
    }

    [Fact]
    public void Notes_together_stand_at_one_time_from_the_lowest()
    {
        var tune = MidiReader.Read(MidiWriter.Write(SampleBreaks.Small), "break.mid").Tune!;
        var together = tune
            .Bars.SelectMany(bar => bar.Notes.GroupBy(note => note.At))
            .Where(group => group.Count() > 1);
        together.Should().NotBeEmpty();
        foreach (var group in together)
        {
            group.Select(note => note.Pitch.Midi).Should().BeInAscendingOrder();
            group.Select(note => note.Length).Distinct().Should().ContainSingle();
        }
    }

    [Theory]
    [InlineData(new byte[0], "this is no MIDI file")]
    [InlineData(new byte[] { 1, 2, 3 }, "this is no MIDI file")]
    public void What_is_no_midi_file_is_refused_with_a_remedy(byte[] bytes, string what)
    {
        var message = MidiReader.Read(bytes, "bad.mid").Messages.Single();
        message.What.Should().Be(what);
        message.Remedy.Should().NotBeEmpty();
    }

    [Fact]
    public void Film_time_and_other_formats_are_refused()
    {
        var film = (byte[])Handmade.Clone();
        film[12] = 0xE8;
        MidiReader.Read(film, "film.mid").Messages.Single().What.Should().Contain("frames of film");
        var several = (byte[])Handmade.Clone();
        several[9] = 2;
        MidiReader.Read(several, "several.mid").Messages.Single().What.Should().Contain("format 2");
    }

    // Where the events of the handmade track of notes begin, in the file.
    private static readonly int[] Boundaries = [49, 53, 56, 59, 62, 65, 68, 71, 75];

    public static TheoryData<byte[], string> BadEvents =>
        new()
        {
            { [0, 0x90, 200, 80], "a note of key 200, where keys are 0 to 127; it is skipped" },
            { [0, 0xFF, 0x51, 2, 1, 2], "a tempo of 2 bytes, where 3 are needed; it is skipped" },
            { [0, 0xFF, 0x59, 1, 0], "a key of 1 bytes, where 2 are needed; it is skipped" },
            { [0, 0xF2, 1, 2], "a message of the wire (0xF2), which no file holds; it is skipped" },
            { [0, 0xF8], "a message of the wire (0xF8), which no file holds; it is skipped" },
        };

    [Theory]
    [MemberData(nameof(BadEvents))]
    public void One_bad_event_costs_only_itself_wherever_it_stands_and_the_notice_says_where(byte[] bad, string what)
    {
        var good = Attacks(MidiReader.Read(Handmade, "hand.mid").Tune!);
        foreach (var place in Boundaries.Skip(1))
        {
            var file = Handmade.Take(place).Concat(bad).Concat(Handmade.Skip(place)).ToArray();
            file[48] += (byte)bad.Length;
            var reading = MidiReader.Read(file, "hand.mid");
            Attacks(reading.Tune!).Should().Equal(good);
            var message = reading.Messages.Should().ContainSingle().Which;
            message.What.Should().StartWith("track 2, quarter note ").And.EndWith(what);
            message.Line.Should().Be(2);
            message.Remedy.Should().NotBeEmpty();
        }
    }

    [Fact]
    public void Of_a_note_with_a_key_that_cannot_be_only_that_note_is_lost_and_the_notice_says_its_time()
    {
        // Each event with its status: where it is left out, a key of 128 and more is a status itself, and nobody can tell.
        byte[] file =
        [
            .. "MThd"u8,
            .. (byte[])[0, 0, 0, 6, 0, 0, 0, 1, 0, 96],
            .. "MTrk"u8,
            .. (byte[])[0, 0, 0, 28],
            .. (byte[])[0, 0x90, 67, 80, 96, 0x80, 67, 0, 0, 0x90, 199, 80, 96, 0x80, 71, 0],
            .. (byte[])[0, 0x90, 72, 80, 96, 0x80, 72, 0, 0, 0xFF, 0x2F, 0],
        ];
        var reading = MidiReader.Read(file, "hand.mid");
        Attacks(reading.Tune!).Select(note => note.Item2).Should().Equal(67, 72);
        reading
            .Messages.Single()
            .What.Should()
            .Be("track 1, quarter note 2: a note of key 199, where keys are 0 to 127; it is skipped");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(12)]
    [InlineData(200)]
    public void A_track_whose_length_is_wrong_is_read_as_far_as_it_goes(byte length)
    {
        var file = (byte[])Handmade.Clone();
        file[48] = length;
        var reading = MidiReader.Read(file, "hand.mid");
        Attacks(reading.Tune!).Should().Equal(Attacks(MidiReader.Read(Handmade, "hand.mid").Tune!));
        reading.Messages.Should().ContainSingle().Which.What.Should().StartWith("track 2: its length is wrong");
    }

    [Fact]
    public void A_file_that_is_cut_off_keeps_the_notes_before_the_cut()
    {
        var reading = MidiReader.Read(Handmade[..64], "hand.mid");
        Attacks(reading.Tune!).Select(note => note.Item2).Should().Equal(67, 69);
        reading.Messages.Should().HaveCount(2).And.OnlyContain(message => message.Line == 2);
    }

    /// <summary>NAudio reads the same file; it is another reader of the same standard.</summary>
    [Fact]
    public void Good_files_give_the_notes_that_naudio_reads()
    {
        foreach (var played in new[] { SampleBreaks.Small, SampleBreaks.SmallCapo2 })
        {
            var file = MidiWriter.Write(played);
            var log = new Rollwright.Formats.Messages.MessageLog("b.mid");
            var tracks = TrackFinder.Read(file, 960, log);
            var ours = new SoundCollector(tracks, 960, MidiChoice.Melody, log).Collect();
            ours.Select(note => (note.On, note.Off - note.On, note.Key))
                .Should()
                .Equal(MidiNotes.Read(file).Select(note => (note.At, note.Length, note.Key)));
            log.Messages.Should().BeEmpty();
        }
    }

    [Fact]
    public void No_bytes_make_the_reader_throw()
    {
        var file = MidiWriter.Write(SampleBreaks.Small);
        Gen.Select(Gen.Int[0, file.Length - 1], Gen.Byte.Array[0, 6], Gen.Int[0, file.Length], Gen.Bool)
            .Sample(
                (at, put, length, isCut) =>
                {
                    var mutated = (byte[])file.Clone();
                    for (var i = 0; i < put.Length && at + i < mutated.Length; i++)
                        mutated[at + i] = put[i];
                    var reading = MidiReader.Read(isCut ? mutated[..length] : mutated, "f.mid");
                    reading.Tune?.Played();
                    return reading.Tune is not null || !reading.Messages.IsEmpty;
                },
                iter: 3000
            );
        Gen.Select(Gen.Int[0, Handmade.Length - 1], Gen.Byte)
            .Sample(
                (at, put) =>
                {
                    var mutated = (byte[])Handmade.Clone();
                    mutated[at] = put;
                    var reading = MidiReader.Read(mutated, "f.mid");
                    reading.Tune?.Played();
                    return reading.Tune is not null || !reading.Messages.IsEmpty;
                },
                iter: 3000
            );
    }

    /// <summary>abc2midi (Debian package abcmidi) plays the tunes; what is read of its files is what the tunes say.</summary>
    [Fact]
    public void What_abc2midi_plays_of_every_tune_is_read_back_as_the_tune_note_for_note()
    {
        var differences = new List<string>();
        var count = 0;
        foreach (var path in Directory.GetFiles(Places.NeedShared("tunes"), "*.abc").Order(StringComparer.Ordinal))
        {
            count++;
            var text = Abc2midi.WithoutTiesOverRepeats(File.ReadAllText(path));
            var asked = AbcReader.Read(text, "tune.abc").Tunes.Single().Played();
            var read = MidiReader.Read(Abc2midi.Play(text, out _), "tune.mid").Tune!.Played();
            if (Difference(asked, Top(read)) is { } difference)
                differences.Add($"{Path.GetFileName(path)}: {difference}");
        }
        string.Join('\n', differences).Should().BeEmpty();
        count.Should().BeGreaterThan(40);
    }

    private static string? Difference(IReadOnlyList<PlayedNote> asked, List<PlayedNote> read)
    {
        for (var i = 0; i < Math.Min(asked.Count, read.Count); i++)
        {
            if ((asked[i].At, asked[i].Length, asked[i].Pitch.Midi) != (read[i].At, read[i].Length, read[i].Pitch.Midi))
                return $"note {i}: asked {asked[i].Pitch} at {asked[i].At} for {asked[i].Length}, "
                    + $"read {read[i].Pitch} at {read[i].At} for {read[i].Length}";
        }
        return asked.Count == read.Count ? null : $"asked {asked.Count} notes, read {read.Count}";
    }

    // The reading of ABC takes the top note of a chord.
    private static List<PlayedNote> Top(IEnumerable<PlayedNote> notes) =>
        [.. notes.GroupBy(note => note.At).Select(group => group.MaxBy(note => note.Pitch.Midi))];

    private static IEnumerable<(Fraction At, int Key)> Attacks(Tune tune) =>
        tune.Played().Select(note => (note.At, note.Pitch.Midi)).Order();
}
