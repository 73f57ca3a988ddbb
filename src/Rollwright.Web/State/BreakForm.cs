using System.Collections.Immutable;

namespace Rollwright.Web.State;

/// <summary>A form in which a break can be taken away.</summary>
/// <param name="Ending">File name ending without the dot.</param>
/// <param name="Type">Media type.</param>
/// <param name="Name">What it is, for a list.</param>
/// <param name="Use">What it is good for, in a few words.</param>
/// <param name="Write">The file's bytes.</param>
public sealed record BreakForm(string Ending, string Type, string Name, string Use, Func<Made, byte[]> Write)
{
    public static ImmutableArray<BreakForm> All { get; } = [];

    public static BreakForm? Find(string ending) => All.FirstOrDefault(form => form.Ending == ending);
}
