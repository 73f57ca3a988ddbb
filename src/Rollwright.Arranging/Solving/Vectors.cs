using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Rollwright.Arranging.Solving;

/// <summary>The two inner loops of the solver, over whole vectors of shapes. All spans are padded to whole vectors.</summary>
internal static class Vectors
{
    /// <summary>row = min(row, first + second + price)</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void MinOfSum(Span<int> row, ReadOnlySpan<int> first, ReadOnlySpan<int> second, int price)
    {
        var prices = Vector512.Create(price);
        ref var r = ref MemoryMarshal.GetReference(row);
        ref var a = ref MemoryMarshal.GetReference(first);
        ref var b = ref MemoryMarshal.GetReference(second);
        for (var i = 0; i < row.Length; i += Vector512<int>.Count)
        {
            var sum = Vector512.LoadUnsafe(ref a, (nuint)i) + Vector512.LoadUnsafe(ref b, (nuint)i) + prices;
            Vector512.Min(Vector512.LoadUnsafe(ref r, (nuint)i), sum).StoreUnsafe(ref r, (nuint)i);
        }
    }

    /// <summary>row = min(row, other + price)</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void MinOf(Span<int> row, ReadOnlySpan<int> other, int price)
    {
        var prices = Vector512.Create(price);
        ref var r = ref MemoryMarshal.GetReference(row);
        ref var a = ref MemoryMarshal.GetReference(other);
        for (var i = 0; i < row.Length; i += Vector512<int>.Count)
        {
            var sum = Vector512.LoadUnsafe(ref a, (nuint)i) + prices;
            Vector512.Min(Vector512.LoadUnsafe(ref r, (nuint)i), sum).StoreUnsafe(ref r, (nuint)i);
        }
    }
}
