namespace Rollwright.Class.Tests;

/// <summary>A clock that a test moves.</summary>
internal sealed class MovableClock : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;
}
