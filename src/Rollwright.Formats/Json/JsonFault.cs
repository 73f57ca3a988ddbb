namespace Rollwright.Formats.Json;

/// <summary>What is wrong with a value of the tree; turned into a message where the reading began.</summary>
internal sealed class JsonFault(long offset, string what, string remedy) : Exception(what)
{
    public long Offset { get; } = offset;

    public string Remedy { get; } = remedy;
}
