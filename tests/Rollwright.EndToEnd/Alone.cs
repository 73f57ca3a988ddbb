namespace Rollwright.EndToEnd;

/// <summary>Classes of tests that run alone, after those that run beside each other.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class Alone
{
    public const string Name = "alone";
}
