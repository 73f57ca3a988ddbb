using Rollwright.Library.Importing;
using Rollwright.TestKit;

namespace Rollwright.Library.Tests;

public class AbcImportTests
{
    private const string Good = "X:1\nT:First\nM:4/4\nL:1/8\nK:G\nGABc dedc|BGAF G4|\n";
    private const string SameInD = "X:2\nT:First, in D\nM:4/4\nL:1/8\nK:D\ndefg abag|fdec d4|\n";
    private const string Other = "X:3\nT:Other\nM:6/8\nL:1/8\nK:D\nd2f a2f|\n";

    [Fact]
    public async Task A_melody_in_another_key_is_a_duplicate_and_a_bad_tune_costs_nothing_of_the_others()
    {
        await using var shelf = await Shelf.OpenAsync();
        var file = Path.Combine(shelf.Folder, "tunes.abc");
        File.WriteAllText(file, $"{Good}\n{SameInD}\nX:9\nT:Nothing here\nK:G\n\n{Other}");
        var report = await Import(shelf, file);
        report.Added.Should().Be(2);
        report
            .Duplicates.Should()
            .ContainSingle()
            .Which.Should()
            .Be(new Duplicate($"{file}:8", "First, in D", "First"));
        report.Faults.Should().ContainSingle().Which.Should().StartWith($"{file}:1");
        (await shelf.Library.FindAsync("other", 5)).Should().ContainSingle().Which.Abc.Should().Contain("d2f a2f");
    }

    [Fact]
    public async Task Stopped_and_run_again_it_adds_the_rest_and_doubles_nothing()
    {
        await using var shelf = await Shelf.OpenAsync();
        var folder = Places.NeedShared("tunes");
        using var stop = new CancellationTokenSource();
        var progress = new Counting(count =>
        {
            if (count == 10)
                stop.Cancel();
        });
        var first = await AbcImport.RunAsync(shelf.Library, [folder], [], TimeProvider.System, progress, stop.Token);
        first.WasCancelled.Should().BeTrue();
        first.Added.Should().Be(10);
        var second = await Import(shelf, folder);
        var files = Directory.GetFiles(folder, "*.abc").Length;
        (first.Added + second.Added).Should().Be(files);
        second.Duplicates.Should().HaveCount(10);
        (await Import(shelf, folder)).Added.Should().Be(0);
    }

    [Fact]
    public async Task A_path_that_is_not_there_is_a_fault_and_the_others_come_in()
    {
        await using var shelf = await Shelf.OpenAsync();
        var file = Path.Combine(shelf.Folder, "tunes.abc");
        File.WriteAllText(file, Good);
        var report = await AbcImport.RunAsync(shelf.Library, ["/nowhere/at/all", file], ["new"], TimeProvider.System);
        report.Added.Should().Be(1);
        report.Faults.Should().ContainSingle().Which.Should().Contain("/nowhere/at/all");
        (await shelf.Library.FindAsync("new", 5)).Should().ContainSingle();
    }

    private static Task<ImportReport> Import(Shelf shelf, string path) =>
        AbcImport.RunAsync(shelf.Library, [path], [], TimeProvider.System);

    private sealed class Counting(Action<int> told) : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value) => told(value.Read);
    }
}
