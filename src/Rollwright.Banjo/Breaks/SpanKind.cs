namespace Rollwright.Banjo.Breaks;

/// <summary>What a named stretch of a break is.</summary>
public enum SpanKind
{
    Roll,
    Lick,
    Tag,
    Pinch,
}
