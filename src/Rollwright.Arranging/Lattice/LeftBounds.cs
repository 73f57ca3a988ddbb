namespace Rollwright.Arranging.Lattice;

/// <summary>What the left hand may be asked for; a level sets it.</summary>
/// <param name="HighestFret">The highest fret, counted from the capo.</param>
/// <param name="FingersDown">Fingers at once, 1 to 4.</param>
/// <param name="ShapesAStep">The most shapes in the lattice at one step, those that licks end on not counted.</param>
/// <param name="Slurs">Whether slides, hammer-ons and pull-offs are offered.</param>
/// <param name="LickLevel">The highest level of lick that is offered; 0 for none.</param>
public sealed record LeftBounds(int HighestFret, int FingersDown, int ShapesAStep, bool Slurs, int LickLevel);
