using System.Collections.Immutable;

namespace Rollwright.Library.Kept;

/// <summary>A tune that was looked for, with what is kept of it.</summary>
/// <param name="Tune">The tune.</param>
/// <param name="Breaks">Its breaks, the last changed first.</param>
public sealed record FoundTune(KeptTune Tune, ImmutableArray<KeptBreak> Breaks);
