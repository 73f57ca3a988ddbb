using System.Collections.Immutable;

namespace Rollwright.Formats.Abc;

/// <summary>A bar line with its repeat signs (ABC 2.1, section 4.8).</summary>
/// <param name="RepeatEnd">How often the section that ends here is played in all; 0 where none ends.</param>
/// <param name="RepeatStart">Whether a repeat starts behind it.</param>
/// <param name="IsSection">Whether it is double or thick.</param>
internal readonly record struct BarLine(int RepeatEnd, bool RepeatStart, bool IsSection)
{
    public static BarLine Plain => default;

    public bool EndsEnding => RepeatEnd > 0 || RepeatStart || IsSection;

    public static bool StartsAt(in Cursor cursor) =>
        cursor.Sign is '|' or ':'
        || (cursor.Sign == '[' && cursor.Peek(1) == '|')
        || (cursor.Sign == '.' && cursor.Peek(1) == '|');

    /// <summary>Reads a run of bar line signs; null for a lone colon, which is no bar line.</summary>
    public static BarLine? Read(ref Cursor cursor)
    {
        cursor.Take('.');
        var leading = 0;
        var trailing = 0;
        var lines = 0;
        var isThick = false;
        for (; ; )
        {
            switch (cursor.Sign)
            {
                case ':':
                    if (lines == 0)
                        leading++;
                    else
                        trailing++;
                    break;
                case '|':
                    lines++;
                    trailing = 0;
                    break;
                // ":]" is a slip for ":|]" that is plain enough.
                case ']' when leading > 0 && lines == 0:
                    lines++;
                    isThick = true;
                    break;
                case ']' when lines > 0:
                case '[' when cursor.Peek(1) == '|':
                    isThick = true;
                    break;
                default:
                    return Made(leading, trailing, lines, isThick);
            }
            cursor.Take();
        }
    }

    private static BarLine? Made(int leading, int trailing, int lines, bool isThick)
    {
        var passes = Math.Min(leading + 1, AbcLimits.MostPasses);
        // "::" is short for ":|:".
        if (lines == 0)
            return leading < 2
                ? null
                : new(Math.Max(2, Math.Min((leading / 2) + 1, AbcLimits.MostPasses)), true, false);
        return new(leading > 0 ? passes : 0, trailing > 0, isThick || lines > 1);
    }

    /// <summary>
    /// Reads the passes of a variant ending, "1", "1,3", "1-3" (section 4.10), with or without "[" in front; empty,
    /// and nothing passed, where none stands here.
    /// </summary>
    public static ImmutableArray<int> ReadEnding(ref Cursor cursor)
    {
        var ahead = cursor;
        ahead.Take('[');
        if (!char.IsAsciiDigit(ahead.Sign))
            return [];
        var passes = new SortedSet<int>();
        while (ahead.Number(AbcLimits.MostPasses) is { } first)
        {
            var last = first;
            if (ahead.Sign == '-' && char.IsAsciiDigit(ahead.Peek(1)))
            {
                ahead.Take();
                last = ahead.Number(AbcLimits.MostPasses)!.Value;
            }
            for (var pass = Math.Max(1, first); pass <= last; pass++)
                passes.Add(pass);
            if (ahead.Sign is ',' or '.' && char.IsAsciiDigit(ahead.Peek(1)))
                ahead.Take();
            else
                break;
        }
        ahead.Take('.');
        cursor = ahead;
        return passes.Count == 0 ? [1] : [.. passes];
    }
}
