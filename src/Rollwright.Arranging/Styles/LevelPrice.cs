namespace Rollwright.Arranging.Styles;

/// <summary>What a level makes of a price: so many per cent of the style's, or a price of its own.</summary>
/// <param name="Value">Per cent, or thousandths of a plain melody note left out.</param>
/// <param name="IsSet">The price of its own.</param>
public readonly record struct LevelPrice(int Value, bool IsSet)
{
    public int Of(int price) => IsSet ? Value : price * Value / 100;
}
