using System.Collections.Immutable;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>What is written in ABC, by our own reader; by outside readers in the classes beside.</summary>
public class AbcWriterTests
{
    [Fact]
    public void Every_tune_of_the_collection_comes_back_as_it_is_played()
    {
        var count = 0;
        foreach (var file in Directory.GetFiles(Places.NeedShared("tunes"), "*.abc").Order(StringComparer.Ordinal))
        {
            count++;
            var tune = AbcReader.Read(File.ReadAllText(file), "tune.abc").Tunes.Single();
            Same(Read(AbcWriter.Write(tune)).Single(), tune, Path.GetFileName(file));
        }
        count.Should().BeGreaterThan(40);
    }

    [Fact]
    public void Any_tune_comes_back_as_it_is_played() =>
        TuneGenerator.Tunes(8).Sample(tune => Same(Read(AbcWriter.Write(tune)).Single(), tune, "generated"));

    // Of notes together our reader takes the top one, the melody of a tune.
    [Fact]
    public void The_top_notes_the_form_and_the_chords_of_any_break_come_back() =>
        BreakGenerator.Breaks.Sample(
            written =>
            {
                var read = Read(AbcWriter.Write(written)).Single();
                read.Title.Should().Be(written.Title);
                read.Time.Should().Be(written.Time);
                read.Key.Should().Be(written.Setting.SoundingKey);
                read.Played()
                    .Select(note => (note.At, note.Pitch.Midi))
                    .Should()
                    .Equal(
                        written
                            .Played()
                            .GroupBy(played => played.At)
                            .Select(group => (group.Key, group.Max(played => written.KeyOf(played.Stroke))))
                    );
            },
            iter: 500
        );

    [Fact]
    public void Behind_the_break_stands_its_tune()
    {
        var tune = Read("X:7\nT:The Kettle Path\nM:2/2\nK:Ador\n|:\"Am\"A4 c2B2|[1 A8:|[2 A8|]\n").Single();
        var written = SampleBreaks.Small with { Tune = tune };
        var read = Read(AbcWriter.Write(written));
        read.Should().HaveCount(2);
        read[0].Key.Should().Be(written.Setting.SoundingKey);
        Same(read[1], tune, "tune");
    }

    [Fact]
    public void Titles_keep_signs_that_mean_something_in_abc() =>
        Read(AbcWriter.Write(SampleBreaks.Small with { Title = "100 % Rye & \\Barley" }))
            .Single()
            .Title.Should()
            .Be("100 % Rye & \\Barley");

    private static ImmutableArray<Tune> Read(string abc)
    {
        var reading = AbcReader.Read(abc, "written.abc");
        reading.Messages.Where(message => message.Severity == Messages.Severity.Error).Should().BeEmpty(abc);
        return reading.Tunes;
    }

    private static void Same(Tune read, Tune tune, string what)
    {
        read.Title.Should().Be(tune.Title, what);
        read.Composer.Should().Be(tune.Composer, what);
        read.Rhythm.Should().Be(tune.Rhythm, what);
        read.Key.Should().Be(tune.Key, what);
        read.Time.Should().Be(tune.Time, what);
        read.Tempo.Should().Be(tune.Tempo, what);
        read.Played().Should().Equal(tune.Played(), what);
        Chords(read).Should().Equal(Chords(tune), what);
        read.Order.Select(bar => read.Bars[bar].Marks.Part)
            .Should()
            .Equal(tune.Order.Select(bar => tune.Bars[bar].Marks.Part), what);
    }

    private static IEnumerable<(Fraction, Music.Chords.Chord)> Chords(Tune tune)
    {
        var start = Fraction.Zero;
        foreach (var index in tune.Order)
        {
            foreach (var chord in tune.Bars[index].Chords)
                yield return (start + chord.At, chord.Chord);
            start += tune.Bars[index].Length;
        }
    }
}
