using System.Xml.Linq;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.MusicXml;
using Rollwright.Music.Metre;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.MusicXml;

/// <summary>MusicXML 4.0 as published by the W3C Music Notation Community Group.</summary>
public class MusicXmlWriterTests
{
    [Fact]
    public void Sample_breaks_are_valid_by_the_published_schema() =>
        MusicXmlSchema
            .Faults([MusicXmlWriter.Write(SampleBreaks.Small), MusicXmlWriter.Write(SampleBreaks.SmallCapo2)])
            .Should()
            .BeEmpty();

    [Fact]
    public void Any_break_is_valid_by_the_published_schema() =>
        BreakGenerator
            .Breaks.Array[40]
            .Sample(
                breaks => MusicXmlSchema.Faults([.. breaks.Select(MusicXmlWriter.Write)]).Should().BeEmpty(),
                iter: 3
            );

    [Fact]
    public void Durations_of_both_staves_add_up_to_every_bar_exactly() =>
        BreakGenerator.Breaks.Sample(written =>
        {
            var part = XDocument.Parse(MusicXmlWriter.Write(written)).Root!.Element("part")!;
            var divisions = (long)part.Descendants("divisions").Single();
            foreach (var (measure, bar) in part.Elements("measure").Zip(written.Bars))
            {
                foreach (var staff in (ReadOnlySpan<int>)[1, 2])
                {
                    var sum = measure
                        .Elements("note")
                        .Where(note => (int)note.Element("staff")! == staff && note.Element("chord") is null)
                        .Sum(note => (long)note.Element("duration")!);
                    new Fraction(sum, 4 * divisions).Should().Be(bar.Length);
                }
                new Fraction((long)measure.Element("backup")!.Element("duration")!, 4 * divisions)
                    .Should()
                    .Be(bar.Length);
            }
        });

    [Fact]
    public void Note_types_dots_and_tuplets_say_what_the_durations_say() =>
        BreakGenerator.Breaks.Sample(written =>
        {
            var part = XDocument.Parse(MusicXmlWriter.Write(written)).Root!.Element("part")!;
            var divisions = (long)part.Descendants("divisions").Single();
            foreach (var note in part.Descendants("note").Where(note => note.Element("type") is not null))
                Said(note).Should().Be(new Fraction((long)note.Element("duration")!, 4 * divisions));
        });

    [Fact]
    public void Every_stroke_stands_in_the_tab_with_its_string_fret_and_finger_and_sounding_pitch() =>
        BreakGenerator.Breaks.Sample(written =>
        {
            var part = XDocument.Parse(MusicXmlWriter.Write(written)).Root!.Element("part")!;
            var told = part.Descendants("note")
                .Where(note => note.Descendants("string").Any() && !note.Elements("tie").Any(IsStop))
                .Select(note =>
                    (
                        (int)note.Descendants("string").Single(),
                        (int)note.Descendants("fret").Single(),
                        note.Descendants("pluck").SingleOrDefault()?.Value,
                        Midi(note.Element("pitch")!)
                    )
                );
            told.Should()
                .Equal(
                    written
                        .Bars.SelectMany(bar => bar.Strokes)
                        .Select(stroke =>
                            (
                                stroke.String,
                                stroke.Fret,
                                stroke.Right?.ToString().ToLowerInvariant(),
                                written.KeyOf(stroke)
                            )
                        )
                );
        });

    [Fact]
    public void The_head_of_the_score_says_tempo_unit_capo_tuning_key_and_instrument()
    {
        var part = XDocument.Parse(MusicXmlWriter.Write(SampleBreaks.SmallCapo2)).Root!;
        ((string)part.Descendants("beat-unit").Single()).Should().Be("half");
        ((int)part.Descendants("per-minute").Single()).Should().Be(80);
        ((int)part.Descendants("sound").Single().Attribute("tempo")!).Should().Be(160, "MusicXML counts quarters");
        ((int)part.Descendants("capo").Single()).Should().Be(2);
        ((int)part.Descendants("fifths").Single()).Should().Be(3, "G position with the capo at 2 sounds in A");
        ((int)part.Descendants("midi-program").Single()).Should().Be(106);
        part.Descendants("staff-tuning")
            .Select(line => $"{(string)line.Attribute("line")!}{line.Value}")
            .Should()
            .Equal("1G4", "2D3", "3G3", "4B3", "5D4");
        part.Descendants("root-step").First().Value.Should().Be("A");
    }

    private static bool IsStop(XElement tie) => (string?)tie.Attribute("type") == "stop";

    private static int Midi(XElement pitch)
    {
        var natural = "C D EF G A B".IndexOf((string)pitch.Element("step")!, StringComparison.Ordinal);
        return (12 * ((int)pitch.Element("octave")! + 1)) + natural + ((int?)pitch.Element("alter") ?? 0);
    }

    private static Fraction Said(XElement note)
    {
        var length = (string)note.Element("type")! switch
        {
            "breve" => new Fraction(2),
            "whole" => new(1),
            "half" => new(1, 2),
            "quarter" => new(1, 4),
            "eighth" => new(1, 8),
            "16th" => new(1, 16),
            "32nd" => new(1, 32),
            var other => new(1, int.Parse(other.TrimEnd('t', 'h'))),
        };
        var dots = note.Elements("dot").Count();
        length *= new Fraction((2 << dots) - 1, 1 << dots);
        var ratio = note.Element("time-modification");
        return ratio is null
            ? length
            : length * new Fraction((int)ratio.Element("normal-notes")!, (int)ratio.Element("actual-notes")!);
    }
}
