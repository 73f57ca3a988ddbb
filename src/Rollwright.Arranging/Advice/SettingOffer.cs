using Rollwright.Banjo.Settings;

namespace Rollwright.Arranging.Advice;

/// <summary>A setting that was tried.</summary>
/// <param name="Setting">Tuning, capo, position, octave.</param>
/// <param name="Price">The price of the setting itself: how unusual it is.</param>
/// <param name="Reach">Share of the tune's weight that lies on the neck at all, 0 to 1.</param>
/// <param name="Ease">A quick estimate of what the tune costs here, before any lattice is built; lower is better.</param>
public sealed record SettingOffer(Setting Setting, int Price, double Reach, int Ease);
