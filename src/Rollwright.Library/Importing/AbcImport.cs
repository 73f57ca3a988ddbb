using System.Collections.Immutable;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Library.Kept;
using Rollwright.Music.Tunes;

namespace Rollwright.Library.Importing;

/// <summary>Brings tunes of ABC files into a library; run again, it adds only what is new.</summary>
public static class AbcImport
{
    /// <summary>So many tunes are kept in one transaction; on a server, others have their turn after each.</summary>
    private const int Batch = 50;

    /// <param name="library">Where they go.</param>
    /// <param name="paths">Files, and folders that are searched for .abc through and through.</param>
    /// <param name="tags">Put on every tune.</param>
    /// <param name="clock">Says when.</param>
    /// <param name="progress">Told after each tune.</param>
    /// <param name="cancel">Stops it between tunes.</param>
    /// <exception cref="LibraryException">The library cannot take them; what was added before stays.</exception>
    public static async Task<ImportReport> RunAsync(
        TuneLibrary library,
        IEnumerable<string> paths,
        ImmutableArray<string> tags,
        TimeProvider clock,
        IProgress<ImportProgress>? progress = null,
        CancellationToken cancel = default
    )
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(paths);
        ArgumentNullException.ThrowIfNull(clock);
        var run = new Run(library, clock, tags);
        var read = 0;
        foreach (var file in paths.SelectMany(run.FilesOf))
        {
            foreach (var (tune, text, place) in run.TunesOf(file))
            {
                if (cancel.IsCancellationRequested)
                    return await run.Finish(wasCancelled: true);
                await run.Add(tune, text, file, place);
                progress?.Report(new(++read, file));
            }
        }
        return await run.Finish(wasCancelled: false);
    }

    private sealed class Run(TuneLibrary library, TimeProvider clock, ImmutableArray<string> tags)
    {
        private readonly List<(KeptTune Tune, string Place)> waiting = [];
        private readonly ImmutableArray<Duplicate>.Builder duplicates = ImmutableArray.CreateBuilder<Duplicate>();
        private readonly ImmutableArray<string>.Builder faults = ImmutableArray.CreateBuilder<string>();
        private int added;
        private long began = clock.GetTimestamp();

        public IEnumerable<string> FilesOf(string path)
        {
            if (Directory.Exists(path))
                return Directory
                    .EnumerateFiles(path, "*.abc", new EnumerationOptions { RecurseSubdirectories = true })
                    .Order(StringComparer.Ordinal);
            if (File.Exists(path))
                return [path];
            faults.Add($"{path}: there is no such file or folder");
            return [];
        }

        public IEnumerable<(Tune Tune, string Text, string Place)> TunesOf(string file)
        {
            if (TextOf(file) is not { } text)
                yield break;
            foreach (var (piece, before) in AbcPieces.Of(text))
            {
                var reading = AbcReader.Read(piece, file);
                if (reading.Tunes is [var tune, ..])
                    yield return (tune, piece, $"{file}:{Math.Max(1, before + 1)}");
                else if (reading.Messages.FirstOrDefault(message => message.Severity == Severity.Error) is { } worst)
                    faults.Add($"{file}:{Math.Max(1, worst.Line + before)}: {worst.What}; {worst.Remedy}");
                else
                    faults.Add($"{file}:{Math.Max(1, before + 1)}: there is no tune here");
            }
        }

        public async Task Add(Tune tune, string text, string file, string place)
        {
            waiting.Add((KeptTune.Of(tune, text, Path.GetFileName(file), tags, clock.GetUtcNow()), place));
            if (waiting.Count < Batch)
                return;
            await Flush();
            // Others work on the same server: half of the time is theirs.
            if (library.Place.IsServer)
                await Task.Delay(clock.GetElapsedTime(began), clock);
            began = clock.GetTimestamp();
        }

        public async Task<ImportReport> Finish(bool wasCancelled)
        {
            await Flush();
            return new(added, duplicates.ToImmutable(), faults.ToImmutable(), wasCancelled);
        }

        private async Task Flush()
        {
            var prints = waiting.Select(item => item.Tune.Fingerprint).Distinct().ToList();
            var known = (await library.WithFingerprintsAsync(prints))
                .GroupBy(tune => tune.Fingerprint)
                .ToDictionary(group => group.Key, group => group.First().Title, StringComparer.Ordinal);
            var fresh = new List<KeptTune>();
            foreach (var (tune, place) in waiting)
            {
                if (known.TryGetValue(tune.Fingerprint, out var title))
                {
                    duplicates.Add(new(place, tune.Title, title));
                    continue;
                }
                known.Add(tune.Fingerprint, tune.Title);
                fresh.Add(tune);
            }
            await library.AddAsync(fresh);
            added += fresh.Count;
            waiting.Clear();
        }

        private string? TextOf(string file)
        {
            try
            {
                if (AbcText.Decode(File.ReadAllBytes(file)) is { } text)
                    return text;
                faults.Add($"{file}: this is no text");
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                faults.Add($"{file}: {fault.Message}");
            }
            return null;
        }
    }
}
