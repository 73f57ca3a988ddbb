using Rollwright.Arranging;
using Rollwright.Banjo.Licks;
using Rollwright.Formats.Abc;
using Rollwright.Library;
using Rollwright.Music.Pitches;
using Rollwright.TestKit;
using Rollwright.Web.State;
using Rollwright.Web.State.Licks;

namespace Rollwright.EndToEnd;

/// <summary>Notes of a break as a lick of one's own, and the choice of licks that are offered.</summary>
public class OwnLickTests
{
    public static TheoryData<string> Tunes =>
        [
            .. Directory
                .GetFiles(Path.Combine(Places.Root, "data", "demo"), "*.abc")
                .Select(file => Path.GetFileName(file)),
        ];

    [Theory]
    [MemberData(nameof(Tunes))]
    public void Bars_that_make_a_lick_are_offered_where_they_were_taken(string file)
    {
        var path = Path.Combine(Places.Root, "data", "demo", file);
        var made = Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(path), path).Tunes[0]);
        var taken = 0;
        for (var bar = 0; bar < made.Grid.Bars.Length; bar++)
        {
            var (first, last) = (made.Grid.FirstOf(bar), made.Grid.Bars[bar].End.Value - 1);
            var (proposal, _) = OwnLick.Propose(made, first, last, "mine", null, 1);
            if (proposal is not { Lick: var lick } || LickBank.BuiltIn.Faults(lick) is [_, ..])
                continue;
            var lasts = Enumerable
                .Range(first, last - first + 1)
                .All(step => made.Grid.Steps[step].Chord is { } chord && chord.HasTriadOf(lick.Chord));
            // Where the tune changes the chord within the bar, no lick over one chord can stand.
            made.Offering([lick]).LicksAt(first).Any(place => place.Lick == lick).Should().Be(lasts, $"bar {bar}");
            taken += lasts ? 1 : 0;
        }
        taken.Should().BeGreaterThanOrEqualTo(5);
    }

    [Fact]
    public async Task Own_licks_are_offered_with_those_of_the_program_less_what_is_filtered_or_set_aside()
    {
        var choice = new LickChoice(new VisitLicks());
        var told = 0;
        choice.Changed += (_, _) => told++;
        var own = LickBank.BuiltIn.Licks[0] with
        {
            Name = "mine",
            Role = LickRole.Fill,
            Chord = new(new(Letter.G)),
            IsInThrees = false,
            Steps = LickTab.Read("4.0T 2.0I 1.0M 2.0I 3.0T 1.0M 2.0I 1.0M"),
        };
        choice.Faults(own).Should().BeEmpty();
        await choice.Add(own);
        choice.Own.Should().Equal(own);
        choice.Faults(own).Select(fault => fault.Rule).Should().Equal("same-name", "same-notes");
        choice.Offers(own).Should().BeTrue();
        choice.Find(new(HasSlurs: true));
        choice.Offers(own).Should().BeFalse();
        choice.Find(new());
        await choice.PutAside(own);
        choice.Offers(own).Should().BeFalse();
        choice.SetAside.Should().Equal("mine");
        await choice.BringBack();
        choice.Offers(own).Should().BeTrue();
        told.Should().Be(5);
    }

    [Fact]
    public async Task A_break_with_a_lick_of_ones_own_put_in_comes_back_with_it()
    {
        const string tune =
            "X:1\nT:Own\nM:2/2\nL:1/8\nK:G\n|:\"G\"G2BG d2BG|G2BG d2BG|\"C\"c2ec \"D7\"dcBA|\"G\"G8:|\n";
        var licks = new LickChoice(new VisitLicks());
        var bench = new Bench(new(), null, licks);
        await bench.Put("own.abc", tune);
        var made = bench.Now!.Arrangement;
        var (proposal, _) = OwnLick.Propose(made, 0, 7, "mine", null, 1);
        await licks.Add(proposal!.Lick);
        bench.Now.Arrangement.Should().BeSameAs(made, "a lick that is offered changes nothing");
        var place = made.Offering(licks.Own).LicksAt(8).First(one => one.Lick == proposal.Lick);
        await bench.Change(AskedAt.Spots, "bar 2", "mine", all => LickTrial.Put(all, place));
        bench.Refusal.Should().BeNull();
        bench.Now.Arrangement.Has(place).Should().BeTrue();

        var work = Work.Read(Work.Of(bench.Now).Write())!;
        var anew = Arranger.Arrange(made.Tune).Offering(licks.Own);
        Work.LocksIn(anew, work.Locks).Should().ContainSingle();
        // Another level has other licks at hand, and this one still.
        await bench.Wish(bench.Wishes with { Level = 4 });
        bench.Now.LetGo.Should().BeEmpty();
        bench.Now.Arrangement.Locks.Should().ContainSingle();
    }

    [Fact]
    public async Task Where_there_is_a_library_a_lick_of_ones_own_is_there_again_after_a_restart()
    {
        const string tune =
            "X:1\nT:Own\nM:2/2\nL:1/8\nK:G\n|:\"G\"G2BG d2BG|G2BG d2BG|\"C\"c2ec \"D7\"dcBA|\"G\"G8:|\n";
        var folder = Directory.CreateTempSubdirectory("rollwright-own-licks").FullName;
        var place = LibraryPlace.Of(Path.Combine(folder, "library.db"));
        var bench = new Bench(new(), null, new LickChoice(new VisitLicks()));
        await bench.Put("own.abc", tune);
        var (proposal, _) = OwnLick.Propose(bench.Now!.Arrangement, 0, 7, "mine, for ever", null, 1);
        var shelf = new KeptLicks(await TuneLibrary.OpenAsync(place, TimeProvider.System), "someone");
        await shelf.AddAsync(proposal!.Lick);
        shelf.Words.Should().Contain("in your library");

        var again = new KeptLicks(await TuneLibrary.OpenAsync(place, TimeProvider.System), "someone else");
        (await again.ReadAsync()).Own.Should().ContainSingle().Which.Should().BeEquivalentTo(proposal.Lick);
        await again.AddAsync(proposal.Lick);
        again.Words.Should().Contain("called 'mine, for ever' already");
        Directory.Delete(folder, recursive: true);
    }
}
