namespace Rollwright.Arranging.Lattice;

/// <summary>What the right hand remembers between steps.</summary>
/// <param name="Manner">Which of the style's ways of playing the phrase is in.</param>
/// <param name="Rolls">One bit for each roll of the table that the bar can still be; 0 once it is none.</param>
/// <param name="Last">One bit for each finger that played last; none of them may play now.</param>
/// <param name="Older">The same for fingers that played before those, where the steps are short.</param>
/// <param name="String">The string that was plucked alone at the step before; 0 for none.</param>
/// <param name="Rings">That string still rings, so that a slur may start from it.</param>
/// <param name="Earlier">Outside a roll, one bit for the finger before the last: two fingers in turn are a trill.</param>
public readonly record struct RightState(
    int Manner,
    int Rolls,
    int Last = 0,
    int Older = 0,
    int String = 0,
    bool Rings = false,
    int Earlier = 0
)
{
    /// <summary>Fingers that have just played.</summary>
    public int Tired => Last | Older;
}
