namespace Rollwright.Banjo.Licks;

/// <summary>Where on the neck a lick lies (the bounds are our own judgement).</summary>
public enum Register
{
    /// <summary>Frets 0 to 5.</summary>
    Low,

    /// <summary>A highest fret of 6 to 9.</summary>
    Middle,

    /// <summary>A highest fret of 10 or more.</summary>
    Up,
}

/// <summary>Registers by their frets and words.</summary>
public static class Registers
{
    public static Register Of(int highestFret) =>
        highestFret <= 5 ? Register.Low
        : highestFret <= 9 ? Register.Middle
        : Register.Up;

    /// <summary>"low", "middle", "up".</summary>
    public static string Word(Register register) =>
        register switch
        {
            Register.Low => "low",
            Register.Middle => "middle",
            _ => "up",
        };

    /// <summary>"low on the neck", "at the middle of the neck", "up the neck".</summary>
    public static string Place(Register register) =>
        register switch
        {
            Register.Low => "low on the neck",
            Register.Middle => "at the middle of the neck",
            _ => "up the neck",
        };
}
