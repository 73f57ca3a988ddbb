using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Formats.Messages;

/// <summary>What was read from a file that holds a break.</summary>
/// <param name="Break">Null where the file could not be read; then a message says why.</param>
/// <param name="Messages">In order of the text.</param>
public sealed record BreakReading(Break? Break, ImmutableArray<Message> Messages)
{
    public static BreakReading Refused(string file, int line, int column, string what, string remedy) =>
        new(null, [new(Severity.Error, file, line, column, what, remedy)]);
}
