using System.Collections.Immutable;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>What was read from an ABC text.</summary>
/// <param name="Tunes">In order of the text; tunes without a single note are left out (and a message says so).</param>
/// <param name="Messages">In order of the text.</param>
public sealed record AbcReading(ImmutableArray<Tune> Tunes, ImmutableArray<Message> Messages)
{
    public bool HasErrors => Messages.Any(message => message.Severity == Severity.Error);
}
