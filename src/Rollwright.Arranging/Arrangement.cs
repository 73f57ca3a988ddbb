using System.Collections.Immutable;
using Rollwright.Arranging.Advice;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Arranging;

/// <summary>A break and how it came about.</summary>
/// <param name="Break">The break.</param>
/// <param name="Cost">What its path costs, thousandths of a plain melody note left out; comparable within one tune.</param>
/// <param name="Settings">The settings that were tried, best first; the first is the break's.</param>
/// <param name="ChordsAdded">The tune had no chords and was given some.</param>
public sealed record Arrangement(Break Break, int Cost, ImmutableArray<SettingOffer> Settings, bool ChordsAdded);
