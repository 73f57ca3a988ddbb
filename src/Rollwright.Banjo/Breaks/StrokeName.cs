namespace Rollwright.Banjo.Breaks;

/// <summary>Names a stroke of a break: the index of its written bar and its index there.</summary>
public readonly record struct StrokeName(int Bar, int Index)
{
    /// <summary>The name in files, such as "3-5".</summary>
    public override string ToString() => $"{Bar}-{Index}";
}
