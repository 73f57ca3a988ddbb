using Rollwright.Banjo.Data;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Tests;

public class DataTests
{
    [Fact]
    public void Every_tuning_sounds_as_it_is_spelled()
    {
        foreach (var tuning in TuningTable.All)
        {
            var spelled = tuning
                .Spelling.Split(' ')
                .Reverse()
                .Select(name => Music.Pitches.PitchName.Parse(name)!.Value.PitchClass);
            tuning.Open.Select(key => key % 12).Should().Equal(spelled, tuning.Id);
        }
    }

    [Fact]
    public void The_short_string_has_no_frets_from_one_to_five_and_sounds_open_plus_fret_less_five()
    {
        Enumerable.Range(1, 5).Should().NotContain(fret => Neck.HasFret(5, fret));
        TuningTable
            .OpenG.KeyOf(5, 7)
            .Should()
            .Be(TuningTable.OpenG.KeyOf(1, 7), "in open G string 5 sounds like string 1 at the same fret");
    }

    [Fact]
    public void Rolls_also_loop_without_a_finger_twice_running_save_those_that_end_a_tag()
    {
        foreach (var roll in RollTable.All.Where(roll => roll.Fingers.Length == 8))
            roll.Fingers[^1].Should().NotBe(roll.Fingers[0], roll.Name);
    }

    [Theory]
    [InlineData("trill | 3 | 0 | 2 | P", "'trill' is none of slide, hammer-on, pull-off")]
    [InlineData("slide | 7 | 2 | 4 | P", "a slur is on string 1 to 4*")]
    [InlineData("slide | 3 | 2 | 40 | P", "a slur is on string 1 to 4*")]
    public void A_wrong_slur_is_refused_with_file_and_line(string row, string what)
    {
        var reading = () => SlurTable.Parse("mine.txt", $"kind|string|from|to|source\n{row}\n");
        reading.Should().Throw<DataException>().WithMessage($"mine.txt:2: {what}");
    }

    [Theory]
    [InlineData("T T I | 3 2 1 | 1", "T plays twice running at step 2")]
    [InlineData("T I M | 3 2 1 | 6", "level 6 is not 1 to 5")]
    public void A_wrong_roll_is_refused_with_file_and_line(string row, string what)
    {
        var text = $"name|fingers|strings|level|source\n\nbad | {row} | P\n";
        var reading = () => RollTable.Parse("mine.txt", text);
        reading.Should().Throw<DataException>().WithMessage($"mine.txt:3: {what}");
    }
}
