namespace Rollwright.Library;

/// <summary>The library cannot do what is asked; nothing was lost. The message says where, what and what to do.</summary>
public sealed class LibraryException(string place, string what, string remedy, Exception? inner = null)
    : Exception($"{place}: {what}; {remedy}", inner)
{
    /// <summary>The file or the server.</summary>
    public string Place { get; } = place;

    public string What { get; } = what;

    public string Remedy { get; } = remedy;
}
