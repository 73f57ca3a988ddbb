namespace Rollwright.Arranging.Solving;

/// <summary>
/// What is laid over the lattice for one solution: steps that must stay as they are (locks), and a bonus for doing at a
/// step what was done at its equal elsewhere in the tune.
/// </summary>
public sealed class Overlay(int steps)
{
    private readonly PathStep?[] locks = new PathStep?[steps];
    private readonly PathStep?[] models = new PathStep?[steps];

    /// <summary>The step must be done like this; null where it is free.</summary>
    public PathStep? LockAt(int step) => locks[step];

    /// <summary>The step is best done like this; null where nothing is to be matched.</summary>
    public PathStep? ModelAt(int step) => models[step];

    /// <summary>Bars at whose first step play also arrives from elsewhere.</summary>
    public Dictionary<int, PathStep> SeamTargets { get; } = [];

    public void Lock(int step, PathStep value) => locks[step] = value;

    public void Match(int step, PathStep value) => models[step] = value;
}
