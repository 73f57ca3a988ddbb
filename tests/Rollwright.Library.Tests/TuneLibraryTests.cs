using Npgsql;
using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

/// <summary>The same of a file and of a server.</summary>
public class TuneLibraryTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task What_was_saved_is_there_after_opening_again(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var tune = Shelf.Tune("Kettle on the Boil", tags: ["easy", "class"]);
        await shelf.Library.AddAsync([tune]);
        var begun = await shelf.Library.BeginAsync(
            tune.Id,
            "mine",
            new(Guid.NewGuid(), "begun", "{}", "{\"n\":1}", "me")
        );
        var library = await shelf.Reopen();
        (await library.TuneAsync(tune.Id)).Should().BeEquivalentTo(tune);
        (await library.BreaksAsync(tune.Id)).Should().ContainSingle().Which.Id.Should().Be(begun.Id);
        var revision = await library.CurrentAsync(begun.Id);
        (revision!.Number, revision.Parent, revision.Break, revision.By).Should().Be((1, null, "{\"n\":1}", "me"));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Undo_and_redo_go_through_every_revision_and_survive_opening_again(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var id = await Begun(shelf);
        for (var i = 1; i < 120; i++)
            (await shelf.Library.SaveAsync(id, i, Draft(i + 1))).Should().BeOfType<SaveOutcome.Saved>();
        var library = await shelf.Reopen();
        for (var i = 119; i >= 1; i--)
            (await library.UndoAsync(id))!.Number.Should().Be(i);
        (await library.UndoAsync(id)).Should().BeNull();
        library = await shelf.Reopen();
        for (var i = 2; i <= 120; i++)
            (await library.RedoAsync(id))!.Number.Should().Be(i);
        (await library.RedoAsync(id)).Should().BeNull();
    }

    [Fact]
    public async Task What_was_gone_back_from_is_kept_and_redo_takes_the_newer_line()
    {
        await using var shelf = await Shelf.OpenAsync();
        var id = await Begun(shelf);
        await shelf.Library.SaveAsync(id, 1, Draft(2));
        await shelf.Library.UndoAsync(id);
        await shelf.Library.SaveAsync(id, 1, Draft(3));
        await shelf.Library.UndoAsync(id);
        (await shelf.Library.RedoAsync(id))!.Number.Should().Be(3);
        (await shelf.Library.RevisionsAsync(id))
            .Select(one => (one.Number, one.Parent))
            .Should()
            .Equal((1, null), (2, 1), (3, 1));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Who_comes_second_sees_the_other_s_change_and_nothing_is_overwritten(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var id = await Begun(shelf);
        var other = await TuneLibrary.OpenAsync(shelf.Place, TimeProvider.System);
        (await shelf.Library.SaveAsync(id, 1, Draft(2))).Should().BeOfType<SaveOutcome.Saved>();
        var outcome = await other.SaveAsync(id, 1, new(Guid.NewGuid(), "theirs", "", "{}"));
        outcome.Should().BeOfType<SaveOutcome.Conflict>().Which.Theirs.Number.Should().Be(2);
        (await other.RevisionsAsync(id)).Should().HaveCount(2);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_draft_that_is_sent_again_because_the_answer_was_lost_is_the_revision_it_became(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var tune = Shelf.Tune("Test");
        await shelf.Library.AddAsync([tune]);
        var (first, second) = (Draft(1), Draft(2));
        var id = (await shelf.Library.BeginAsync(tune.Id, "Test", first)).Id;
        (await shelf.Library.BeginAsync(tune.Id, "Test", first)).Id.Should().Be(id, "it is begun once");
        await shelf.Library.SaveAsync(id, 1, second);
        Number(await shelf.Library.SaveAsync(id, 1, second)).Should().Be(2, "its own revision is no conflict");
        await shelf.Library.SaveAsync(id, 2, Draft(3));
        Number(await shelf.Library.SaveAsync(id, 1, second)).Should().Be(2, "also when someone went on from it");
        (await shelf.Library.RevisionsAsync(id)).Select(one => one.Number).Should().Equal(1, 2, 3);

        Number(await shelf.Library.GoAsync(id, 3, 1)).Should().Be(1);
        Number(await shelf.Library.GoAsync(id, 3, 1)).Should().Be(1, "it is there already");
        (await shelf.Library.GoAsync(id, 3, 2)).Should().BeOfType<SaveOutcome.Conflict>();

        static int Number(SaveOutcome outcome) => outcome.Should().BeOfType<SaveOutcome.Saved>().Which.Revision.Number;
    }

    [Fact]
    public async Task Where_the_answer_of_the_server_is_lost_the_change_is_there_and_trying_again_finds_it()
    {
        await using var shelf = await Shelf.OpenAsync(onServer: true);
        var direct = new NpgsqlConnectionStringBuilder(shelf.Place.Connection);
        using var wire = new Wire(direct.Port);
        var place = new LibraryPlace(null, $"{new NpgsqlConnectionStringBuilder($"{direct}") { Port = wire.Port }}");
        var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        var tune = Shelf.Tune("Test");
        await library.AddAsync([tune]);
        var (first, second) = (Draft(1), Draft(2));

        wire.LosesNextCommit = true;
        var begin = () => library.BeginAsync(tune.Id, "Test", first);
        await begin.Should().ThrowAsync<LibraryException>();
        (await shelf.Library.BreaksAsync()).Should().ContainSingle("it was done, though nobody heard so");
        var id = (await library.BeginAsync(tune.Id, "Test", first)).Id;

        wire.LosesNextCommit = true;
        var save = () => library.SaveAsync(id, 1, second);
        await save.Should().ThrowAsync<LibraryException>();
        (await library.SaveAsync(id, 1, second)).Should().BeOfType<SaveOutcome.Saved>();
        (await shelf.Library.BreaksAsync()).Should().ContainSingle();
        (await shelf.Library.RevisionsAsync(id)).Should().HaveCount(2);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task The_same_draft_sent_many_times_at_once_is_one_revision(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var id = await Begun(shelf);
        var draft = Draft(2);
        var outcomes = await Task.WhenAll(
            Enumerable.Range(0, 12).Select(_ => Task.Run(() => shelf.Library.SaveAsync(id, 1, draft)))
        );
        outcomes.Should().AllSatisfy(outcome => outcome.Should().BeOfType<SaveOutcome.Saved>());
        (await shelf.Library.RevisionsAsync(id)).Should().HaveCount(2);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Of_many_who_save_at_once_exactly_one_is_first(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var id = await Begun(shelf);
        var outcomes = await Task.WhenAll(
            Enumerable.Range(0, 12).Select(i => Task.Run(() => shelf.Library.SaveAsync(id, 1, Draft(i))))
        );
        outcomes.Count(outcome => outcome is SaveOutcome.Saved).Should().Be(1);
        (await shelf.Library.RevisionsAsync(id)).Should().HaveCount(2);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Search_takes_beginnings_of_words_and_no_accents(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        await shelf.Library.AddAsync([
            Shelf.Tune("Wren on the Gatepost", tags: ["easy"]),
            Shelf.Tune("The Wren's Nest"),
            Shelf.Tune("Café by the Mill", "X:1\nT:Café by the Mill\nR:waltz\nN:learnt at the harbour\nK:D\nA|\n"),
        ]);
        (await Titles("wren")).Should().BeEquivalentTo("Wren on the Gatepost", "The Wren's Nest");
        (await Titles("wren gate")).Should().Equal("Wren on the Gatepost");
        (await Titles("cafe")).Should().Equal("Café by the Mill");
        (await Titles("HARB")).Should().Equal("Café by the Mill");
        (await Titles("easy")).Should().Equal("Wren on the Gatepost");
        (await Titles("waltz gatepost")).Should().BeEmpty();
        (await Titles("\" OR * NEAR( ' ; DROP TABLE")).Should().BeEmpty();
        (await Titles("  ")).Should().BeEmpty();

        async Task<IEnumerable<string>> Titles(string words) =>
            (await shelf.Library.FindAsync(words, 10)).Select(tune => tune.Title);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Practice_of_a_day_adds_up(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var id = await Begun(shelf);
        var day = new DateOnly(2026, 3, 2);
        await shelf.Library.PractiseAsync(id, new(day, 1, 60, 5, 1));
        await shelf.Library.PractiseAsync(id, new(day, 1, 56, 3, 0));
        await shelf.Library.PractiseAsync(id, new(day.AddDays(1), 1, 64, 5, 0));
        (await shelf.Library.PracticeAsync(id))
            .Should()
            .Equal(new KeptPractice(day, 1, 60, 8, 1), new KeptPractice(day.AddDays(1), 1, 64, 5, 0));
    }

    private static async Task<Guid> Begun(Shelf shelf)
    {
        var tune = Shelf.Tune("Test");
        await shelf.Library.AddAsync([tune]);
        return (await shelf.Library.BeginAsync(tune.Id, "Test", Draft(1))).Id;
    }

    private static Draft Draft(int number) => new(Guid.NewGuid(), $"change {number}", "", $"{{\"n\":{number}}}");
}
