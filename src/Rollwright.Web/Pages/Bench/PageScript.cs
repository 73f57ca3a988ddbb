using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Rollwright.Web.Pages.Bench;

/// <summary>
/// A script of the browser that a part of the page attaches to itself. The part may be taken away while its script is on
/// the way: then the script is never attached, and what is asked of it later is passed over.
/// </summary>
internal sealed class PageScript : IAsyncDisposable
{
    private IJSObjectReference? module;
    private IJSObjectReference? hand;
    private Action? forget;
    private bool isGone;

    /// <summary>Whether there is something to ask.</summary>
    public bool IsAttached => hand is not null && !isGone;

    /// <summary>Loads the script and attaches it to an element.</summary>
    /// <param name="js">The page's own.</param>
    /// <param name="address">Of a module with an <c>attach</c>; what that gives has a <c>leave</c>.</param>
    /// <param name="element">What the script listens to.</param>
    public Task Attach(IJSRuntime js, string address, ElementReference element) => Attach(js, address, [element]);

    /// <summary>Loads the script and attaches it to an element; it tells the part of the page what it hears.</summary>
    public Task Attach<T>(IJSRuntime js, string address, ElementReference element, T part)
        where T : class
    {
        var reference = DotNetObjectReference.Create(part);
        forget = reference.Dispose;
        return Attach(js, address, [element, reference]);
    }

    private async Task Attach(IJSRuntime js, string address, object?[] to)
    {
        module = await js.InvokeAsync<IJSObjectReference>("import", address);
        if (!isGone)
            hand = await module.InvokeAsync<IJSObjectReference>("attach", to);
        if (isGone)
            await Leave();
    }

    public async ValueTask Ask(string what, params object?[] wish)
    {
        if (IsAttached)
            await hand!.InvokeVoidAsync(what, wish);
    }

    /// <returns>Its answer; the default where nothing is attached.</returns>
    public async ValueTask<T?> Ask<T>(string what) => IsAttached ? await hand!.InvokeAsync<T>(what) : default;

    /// <summary>Tells the script that its part of the page is gone, and lets go of both.</summary>
    public ValueTask DisposeAsync()
    {
        isGone = true;
        return Leave();
    }

    private async ValueTask Leave()
    {
        var (left, from) = (hand, module);
        (hand, module) = (null, null);
        try
        {
            if (left is not null)
            {
                await left.InvokeVoidAsync("leave");
                await left.DisposeAsync();
            }
            if (from is not null)
                await from.DisposeAsync();
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            // The whole page is gone, or goes while this is said to it; what listened goes with it.
        }
        forget?.Invoke();
    }
}
