namespace Rollwright.Sound.Playing;

/// <summary>
/// How loud the right hand plays what the notes are for, in dB beside a full stroke: the tune stands out over fill and
/// drone (assumptions).
/// </summary>
/// <param name="Melody">Notes of the tune.</param>
/// <param name="Drone">The short string where it is not the tune.</param>
/// <param name="Fill">All others.</param>
public readonly record struct Accents(double Melody, double Drone, double Fill)
{
    public static Accents Usual => new(0, -5.2, -4.2);
}
