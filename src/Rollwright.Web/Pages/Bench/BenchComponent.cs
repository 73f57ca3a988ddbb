namespace Rollwright.Web.Pages.Bench;

/// <summary>A part of the page that shows what lies on the bench, and is drawn anew when that changes.</summary>
public abstract class BenchComponent : BenchPart, IDisposable
{
    protected override void OnInitialized() => Bench.Changed += ShowAgain;

    public void Dispose()
    {
        Bench.Changed -= ShowAgain;
        GC.SuppressFinalize(this);
    }

    private void ShowAgain(object? sender, EventArgs nothing) => _ = InvokeAsync(StateHasChanged);
}
