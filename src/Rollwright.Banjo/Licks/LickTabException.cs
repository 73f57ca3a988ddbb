namespace Rollwright.Banjo.Licks;

/// <summary>A token of a lick's tab is wrong.</summary>
/// <param name="offset">Characters of the text before the token.</param>
/// <param name="message">What is wrong and what it should be.</param>
public sealed class LickTabException(int offset, string message) : FormatException(message)
{
    public int Offset { get; } = offset;
}
