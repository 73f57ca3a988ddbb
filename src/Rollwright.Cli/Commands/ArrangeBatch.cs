using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Rollwright.Cli.Files;
using Rollwright.Music.Tunes;
using Rollwright.Web.State;
using Spectre.Console;

namespace Rollwright.Cli.Commands;

/// <summary>
/// Many tunes at once: all cores work, tune by tune, whatever files they come from; a bad file or tune costs only itself,
/// and a line at the end says how many there were.
/// </summary>
internal sealed class ArrangeBatch
{
    /// <summary>From here on, bytes, what finished tunes leave behind is cleared away at once.</summary>
    private const long MuchMemory = 200_000_000;

    private readonly string folder;
    private readonly ImmutableArray<FileForm> forms;
    private readonly ArrangeCommand.Recipe recipe;
    private int made;
    private int failed;

    private ArrangeBatch(string folder, ImmutableArray<FileForm> forms, ArrangeCommand.Recipe recipe)
    {
        this.folder = folder;
        this.forms = forms;
        this.recipe = recipe;
    }

    private sealed record Item(string Path, string Name, Tune Tune);

    public static int Run(string[] paths, string folder, ImmutableArray<FileForm> forms, ArrangeCommand.Recipe recipe)
    {
        var batch = new ArrangeBatch(folder, forms, recipe);
        // Progress is for people at a terminal; a pipe or a log gets none.
        if (AnsiConsole.Profile.Capabilities.Interactive && !Console.IsErrorRedirected)
        {
            var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });
            console
                .Progress()
                .Start(context =>
                {
                    var task = context.AddTask("Arranging", maxValue: paths.Length);
                    var count = new TuneCount(
                        paths.Length,
                        (done, whole) =>
                        {
                            task.Description = $"Arranging: {done} of {whole} {(whole == 1 ? "tune" : "tunes")}";
                            task.MaxValue = whole;
                            task.Value = done;
                        }
                    );
                    batch.All(paths, count);
                });
        }
        else
        {
            batch.All(paths, new(paths.Length, (_, _) => { }));
        }
        if (batch.made + batch.failed > 1)
            Exit.Say(
                $"{batch.made} {(batch.made == 1 ? "break" : "breaks")} written to {folder}"
                    + (batch.failed == 0 ? "" : $"; {batch.failed} could not be made, see above")
            );
        return batch.failed == 0 ? Exit.Done : Exit.Wrong;
    }

    // Items are taken one by one, so that a large file of many tunes keeps all cores busy too.
    private void All(string[] paths, TuneCount count)
    {
        var items = Items(paths, count);
        Parallel.ForEach(
            System.Collections.Concurrent.Partitioner.Create(
                items,
                System.Collections.Concurrent.EnumerablePartitionerOptions.NoBuffering
            ),
            // More threads than cores would only hold more lattices at once.
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount },
            item =>
            {
                One(item);
                count.Done();
            }
        );
    }

    private IEnumerable<Item> Items(string[] paths, TuneCount count)
    {
        foreach (var path in paths)
        {
            var isRead = TryRead(path, out var tunes);
            count.Read(tunes?.Length ?? 0);
            if (!isRead)
                continue;
            foreach (var (name, tune) in NamesOf(path, tunes!).Zip(tunes!))
                yield return new(path, name, tune);
        }
    }

    private bool TryRead(string path, [NotNullWhen(true)] out Tune[]? tunes)
    {
        try
        {
            tunes = [.. TuneInput.ReadAll(path)];
            return true;
        }
        catch (Exception fault) when (Exit.IsExpected(fault))
        {
            Exit.Say(fault.Message);
            Interlocked.Increment(ref failed);
            tunes = null;
            return false;
        }
    }

    private void One(Item item)
    {
        try
        {
            var done = recipe.Make(item.Path, item.Tune);
            foreach (var form in forms)
                recipe.Write(Path.Combine(folder, $"{item.Name}.{form.Ending}"), form, done);
            Interlocked.Increment(ref made);
            // A solved lattice lives long enough to count as old, and the old are collected late.
            if (GC.GetTotalMemory(false) > MuchMemory)
                GC.Collect();
        }
        catch (Exception fault) when (Exit.IsExpected(fault))
        {
            Exit.Say(fault.Message);
            Interlocked.Increment(ref failed);
        }
    }

    /// <summary>
    /// The names of the outputs of a file's tunes. Numbers and titles come twice in collections: the second of a name
    /// gets a number of its own, so that no break overwrites another.
    /// </summary>
    private static string[] NamesOf(string path, Tune[] tunes)
    {
        var stem = InputFile.StemOf(path);
        if (tunes.Length == 1)
            return [stem];
        var taken = new HashSet<string>(StringComparer.Ordinal);
        return
        [
            .. tunes.Select(tune =>
            {
                var name = $"{stem}-{tune.Number}-{Slug(tune.Title)}";
                var free = name;
                for (var count = 2; !taken.Add(free); count++)
                    free = $"{name}-{count}";
                return free;
            }),
        ];
    }

    private static string Slug(string title)
    {
        var letters = title.Normalize().ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-');
        var slug = string.Join('-', string.Concat(letters).Split('-', StringSplitOptions.RemoveEmptyEntries));
        return slug.Length == 0 ? "untitled" : slug[..Math.Min(60, slug.Length)];
    }
}
