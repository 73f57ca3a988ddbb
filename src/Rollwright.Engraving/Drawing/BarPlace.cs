namespace Rollwright.Engraving.Drawing;

/// <summary>Where a written bar stands.</summary>
/// <param name="Bar">Index of the written bar.</param>
/// <param name="Page">Index of the page.</param>
/// <param name="System">Index of the system, counted through all pages.</param>
/// <param name="Box">From bar line to bar line; from the top of the upper staff to the bottom of the lower.</param>
public readonly record struct BarPlace(int Bar, int Page, int System, Box Box);
