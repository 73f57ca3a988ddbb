using System.Collections.Immutable;
using Rollwright.Arranging;
using Version = Rollwright.Arranging.Variations.Version;

namespace Rollwright.Web.State;

/// <summary>A version of a break, of one kind.</summary>
/// <param name="Name">The kind, as the data has it.</param>
/// <param name="Made">The version; null where there is none.</param>
/// <param name="Differs">Share of the steps that sound otherwise than the break.</param>
public sealed record MadeVersion(string Name, Arrangement? Made, double Differs)
{
    /// <exception cref="OperationCanceledException">It was stopped between two of them.</exception>
    public static ImmutableArray<MadeVersion> AllOf(Arrangement made, CancellationToken stop)
    {
        return [.. Version.All.Select(Next)];

        MadeVersion Next(Version version)
        {
            stop.ThrowIfCancellationRequested();
            return Of(made, version);
        }
    }

    private static MadeVersion Of(Arrangement made, Version version)
    {
        try
        {
            var (other, differs) = made.Versions(version, 1)[^1];
            // It is looked at, and made again where it is taken.
            other.Rest(made);
            return new(version.Name, differs > 0 ? other : null, differs);
        }
        catch (ArrangeException)
        {
            // Locks may leave no way: then there is no such version, which is what the page says.
            return new(version.Name, null, 0);
        }
    }
}
