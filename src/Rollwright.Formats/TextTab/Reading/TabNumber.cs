using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>A number on a string.</summary>
/// <param name="Bar">Index of its bar.</param>
/// <param name="Column">Of its first digit.</param>
/// <param name="String">1 to 5.</param>
/// <param name="Fret">As written.</param>
/// <param name="Slur">How it follows the number before it on its string, over bar lines too; null where it is plucked.</param>
internal sealed record TabNumber(int Bar, int Column, int String, int Fret, SlurKind? Slur)
{
    /// <summary>All numbers, string by string: the letters of a slur may stand before a bar line and its number behind it.</summary>
    public static List<TabNumber> All(TabPage page, IReadOnlyList<TabBar> bars, MessageLog log)
    {
        var numbers = new List<TabNumber>();
        for (var s = 1; s <= Neck.Strings; s++)
        {
            var reading = new OnString(s, log, numbers);
            for (var i = 0; i < bars.Count; i++)
                reading.Read(page.Systems[bars[i].System].Strings[s - 1], bars[i], i);
        }
        return
        [
            .. numbers.OrderBy(number => number.Bar).ThenBy(number => number.Column).ThenBy(number => number.String),
        ];
    }

    private sealed class OnString(int banjoString, MessageLog log, List<TabNumber> numbers)
    {
        private int? before;
        private SlurKind? pending;
        private bool isTurning;

        public void Read(TabLine line, TabBar bar, int index)
        {
            for (var column = bar.Start; column < bar.End; column++)
            {
                var sign = line.At(column);
                if (char.IsAsciiDigit(sign))
                    column += Number(line, column, bar, index) - 1;
                else if (SlurOf(line, column) is { } kind)
                {
                    pending = kind;
                    isTurning = sign is '/' or '\\';
                }
                else if (sign == '-' && pending == SlurKind.Choke)
                    Aside(line, column, "a bend that leads to no number is kept aside");
                else if (sign is 'x' or 'X')
                    Aside(line, column, "damped strokes (x) are kept aside");
                else if (sign is '~' or '^' or 'v')
                    Aside(line, column, "trembling and other ornaments (~ ^) are kept aside");
            }
        }

        private static SlurKind? SlurOf(TabLine line, int column) =>
            char.ToLowerInvariant(line.At(column)) switch
            {
                // "ch" is a choke, not a hammer-on.
                'h' when char.ToLowerInvariant(line.At(column - 1)) == 'c' => SlurKind.Choke,
                'h' => SlurKind.HammerOn,
                'p' => SlurKind.PullOff,
                's' or '/' or '\\' => SlurKind.Slide,
                'b' => SlurKind.Choke,
                _ => null,
            };

        private void Aside(TabLine line, int column, string what)
        {
            log.NoteOnce(line.Number, column + 1, what);
            if (pending == SlurKind.Choke)
                pending = null;
        }

        // Two digits are one fret where the neck has it.
        private int Number(TabLine line, int column, TabBar bar, int index)
        {
            var fret = line.At(column) - '0';
            var length = 1;
            if (fret is 1 or 2 && column + 1 < bar.End && char.IsAsciiDigit(line.At(column + 1)))
            {
                var both = (10 * fret) + line.At(column + 1) - '0';
                if (both <= Neck.LastFret)
                    (fret, length) = (both, 2);
            }
            var slur = pending;
            pending = null;
            if (slur is not null && before is null)
            {
                log.NoteOnce(line.Number, column + 1, "a slur that nothing sounds before is read as a pluck");
                slur = null;
            }
            // A slide off the string ends nowhere.
            if (slur == SlurKind.Slide && isTurning && (fret == 0 || before == 0))
                slur = null;
            // What is bent stays where it is; the number behind b says how high it sounds.
            if (slur == SlurKind.Choke && char.ToLowerInvariant(line.At(column - 1)) == 'b')
                fret = before!.Value;
            if (!Neck.HasFret(banjoString, fret))
            {
                if (banjoString != Neck.ShortString)
                    return Skip(line, column, length, fret);
                log.NoteOnce(
                    line.Number,
                    column + 1,
                    "frets of string 5 below 6 are counted from its peg; they are read as the neck's"
                );
                fret += Neck.ShortStringStart;
            }
            numbers.Add(new(index, column, banjoString, fret, slur));
            before = fret;
            return length;
        }

        private int Skip(TabLine line, int column, int length, int fret)
        {
            log.Error(line.Number, column + 1, $"fret {fret} is beyond the neck", $"write 0 to {Neck.LastFret}");
            return length;
        }
    }
}
