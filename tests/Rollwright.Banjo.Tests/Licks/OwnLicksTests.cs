using Rollwright.Banjo.Data;
using Rollwright.Banjo.Licks;

namespace Rollwright.Banjo.Tests.Licks;

/// <summary>A player's own file beside the licks of the program.</summary>
public class OwnLicksTests
{
    private const string Head = "name|role|tuning|chord|level|beats|tab\n";

    [Fact]
    public void A_wrong_line_costs_no_other()
    {
        var (bank, faults) = LickBank.BuiltIn.Read(
            "mine.txt",
            Head
                + "good one|fill|open-g|G|2|twos|3.0Th2 1.0M 5.0T 1.0M\n"
                + "short row|fill\n"
                + "bad token|fill|open-g|G|1|twos|3.0T 2.0Q\n"
                + "good two|fill|open-g|C|1|twos|2.1T 1.2M 5.0T 1.2M\n"
        );
        bank.Licks[^2..].Select(lick => lick.Name).Should().Equal("good one", "good two");
        faults
            .Select(fault => fault.Message)
            .Should()
            .SatisfyRespectively(
                first => first.Should().StartWith("mine.txt:3: 2 cells"),
                second => second.Should().StartWith("mine.txt:4:37: '2.0Q' is not a note")
            );
    }

    [Theory]
    [InlineData(
        "x|fill|open-g|G|1|twos|3.0T 2.0T",
        "mine.txt:2:24: x: step 2: T has just played one step before [finger-again]; change*"
    )]
    [InlineData(
        "x|fill|open-g|G|1|twos|3.1T 2.0I",
        "mine.txt:2:24: x: step 1: string 3 at fret 1 does not belong over G [chord]; name another*"
    )]
    [InlineData("x|turnaround|open-g|G|1|twos|3.0T 1.0M 2.0I", "*[next-chord]; name the next chord")]
    [InlineData(
        "two open strings rising|fill|open-g|G|1|twos|3.0T 1.0M",
        "mine.txt:2:1: *[same-name]; give it another name"
    )]
    [InlineData(
        "x|pickup|open-g|G|1|twos|4.0T 2.0I -",
        "*'two open strings rising' has the same notes [same-notes]; use that one*"
    )]
    [InlineData(
        "x|jump|open-g|G|1|twos|3.0T",
        "mine.txt:2:3: role 'jump' is none of fill, run, pickup, turnaround, tag"
    )]
    [InlineData("x|fill|lute|G|1|twos|3.0T", "mine.txt:2:8: no tuning is called 'lute'; known are open-g,*")]
    [InlineData("x|fill|open-g|H|1|twos|3.0T", "mine.txt:2:15: 'H' is not a chord such as G, Em, D7, F#m")]
    [InlineData("x|fill|open-g|G|9|twos|3.0T", "mine.txt:2:17: level '9' is not 1 to 5")]
    [InlineData("x|fill|open-g|G|1|fives|3.0T", "mine.txt:2:19: beats 'fives' is neither twos nor threes")]
    [InlineData("|fill|open-g|G|1|twos|3.0T", "mine.txt:2:1: a lick needs a name*")]
    public void What_is_wrong_is_said_with_place_rule_and_remedy(string row, string what)
    {
        var (bank, faults) = LickBank.BuiltIn.Read("mine.txt", Head + row + "\n");
        bank.Licks.Should().HaveCount(LickTable.All.Length);
        faults.Should().ContainSingle().Which.Message.Should().Match(what);
    }

    [Fact]
    public void A_file_without_its_head_says_so() =>
        LickBank
            .BuiltIn.Read("mine.txt", "x|fill\n")
            .Faults.Should()
            .ContainSingle()
            .Which.Message.Should()
            .Contain("the first row names the columns");

    [Fact]
    public void Every_lick_survives_its_row()
    {
        var columns = LickRow.Head.Split('|', StringSplitOptions.TrimEntries);
        var text = LickRow.Head + "\n" + string.Join('\n', LickTable.All.Select(lick => LickRow.Write(lick, columns)));
        var read = LickTable.Parse("all.txt", text);
        read.Should().HaveSameCount(LickTable.All);
        foreach (var (lick, again) in LickTable.All.Zip(read))
        {
            again.Steps.Should().Equal(lick.Steps);
            (again with { Steps = lick.Steps }).Should().Be(lick);
        }
    }

    [Fact]
    public void A_lick_is_found_by_name_and_by_number_and_by_a_piece_of_its_tab()
    {
        var bank = LickBank.BuiltIn;
        var lick = bank.Find("HALF bar, slide on the third")!;
        bank.Find($"{bank.NumberOf(lick)}").Should().BeSameAs(lick);
        bank.Find("0").Should().BeNull();
        bank.Find($"{bank.Licks.Length + 1}").Should().BeNull();
        LickSearch.Find(bank, "3.2Ts4 2.0I").Should().Contain(lick);
        LickSearch.Find(bank, "3.2s4 2.0").Should().Contain(lick);
        LickSearch.Find(bank, "3.2Is4 2.0I").Should().NotContain(lick);
        LickSearch.Find(bank, "third slide").Should().Contain(lick);
        new LickSearch(Chord: lick.Chord, Role: LickRole.Fill, Level: 2, Tuning: "open-g", Register: Register.Low)
            .In(bank)
            .Should()
            .Contain(lick)
            .And.OnlyContain(other => other.Level <= 2 && other.Role == LickRole.Fill && other.Slurs <= 1);
    }
}
