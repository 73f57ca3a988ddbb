using System.Collections.Immutable;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Playing;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Band;

/// <summary>What one player does: an instrument as it is set up, and the acts of the hands on it.</summary>
/// <param name="Voice">The instrument; the part is called as it is.</param>
/// <param name="Open">Its open strings, from string 1.</param>
/// <param name="Level">dB.</param>
/// <param name="Acts">In order of time.</param>
public sealed record Part(
    InstrumentVoice Voice,
    ImmutableArray<OpenString> Open,
    double Level,
    ImmutableArray<HandEvent> Acts
)
{
    public string Name => Voice.Name;
}
