using Microsoft.AspNetCore.Components;

namespace Rollwright.Web.Pages.Bench;

/// <summary>
/// A part of the page about a turn that it is handed. It is drawn when the page is, and never by itself: what is found about
/// another turn would then stand beside the one it was handed before.
/// </summary>
public abstract class BenchPart : ComponentBase
{
    [Inject]
    public required State.Bench Bench { get; init; }
}
