namespace Rollwright.Arranging.Lattice;

/// <summary>What the right hand remembers between steps.</summary>
/// <param name="Rolls">One bit for each roll of the table that the bar can still be; 0 once it is none.</param>
/// <param name="Fingers">One bit for each finger that played at the step before and may not play now.</param>
/// <param name="String">The string that was plucked alone at the step before; 0 for none.</param>
/// <param name="Rings">That string was plucked alone at the step before, so that a slur may start from it.</param>
/// <param name="Earlier">Outside a roll, one bit for the finger before the last: two fingers in turn are a trill.</param>
public readonly record struct RightState(int Rolls, int Fingers, int String, bool Rings, int Earlier = 0)
{
    public static RightState Start(int rolls) => new(rolls, 0, 0, false);
}
