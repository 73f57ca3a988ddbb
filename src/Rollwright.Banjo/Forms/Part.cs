using System.Collections.Immutable;

namespace Rollwright.Banjo.Forms;

/// <summary>A part of a break and how often it is played.</summary>
/// <param name="Name">As it is labelled; by its place, A B C, where it is not.</param>
/// <param name="Times">1 or more.</param>
/// <param name="Phrases">In order; each ending's own.</param>
public sealed record Part(string Name, int Times, ImmutableArray<Phrase> Phrases);
