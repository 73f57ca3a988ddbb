using System.Collections.Immutable;

namespace Rollwright.Library.Importing;

/// <summary>How far an import is.</summary>
/// <param name="Read">Tunes read so far.</param>
/// <param name="File">The file at hand.</param>
public readonly record struct ImportProgress(int Read, string File);

/// <summary>A tune that was there already.</summary>
/// <param name="Place">File and line of the copy.</param>
/// <param name="Title">Of the copy.</param>
/// <param name="Known">Title of the one that is kept.</param>
public sealed record Duplicate(string Place, string Title, string Known);

/// <summary>What came of an import.</summary>
/// <param name="Added">Tunes that are kept now and were not before.</param>
/// <param name="Duplicates">The same melody in any key was there already, or came twice.</param>
/// <param name="Faults">What could not be read, with file and line; it cost nothing of the others.</param>
/// <param name="WasCancelled">Whether it was stopped; what was added stays, and running it again goes on.</param>
public sealed record ImportReport(
    int Added,
    ImmutableArray<Duplicate> Duplicates,
    ImmutableArray<string> Faults,
    bool WasCancelled
);
