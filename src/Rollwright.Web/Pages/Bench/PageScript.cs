using Microsoft.JSInterop;

namespace Rollwright.Web.Pages.Bench;

/// <summary>A script of the browser that a part of the page had attached to itself.</summary>
internal static class PageScript
{
    /// <summary>Tells the script that its part of the page is gone, and lets go of both.</summary>
    /// <param name="hand">What the script gave for the part; it has a <c>leave</c>. Null where it was never attached.</param>
    /// <param name="script">The script's module, null where it was never loaded.</param>
    public static async ValueTask Leave(IJSObjectReference? hand, IJSObjectReference? script)
    {
        try
        {
            if (hand is not null)
            {
                await hand.InvokeVoidAsync("leave");
                await hand.DisposeAsync();
            }
            if (script is not null)
                await script.DisposeAsync();
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            // The whole page is gone, or goes while this is said to it; what listened goes with it.
        }
    }
}
