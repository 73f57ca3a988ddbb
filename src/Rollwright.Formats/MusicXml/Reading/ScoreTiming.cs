using System.Globalization;
using System.Xml.Linq;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>
/// From the divisions of a score to whole notes; divisions and metre hold until they change. Programs count finely and round:
/// a triplet of 341, 341 and 342 parts of 1024. What the grid of our times cannot hold is read from the note's sign, else
/// rounded.
/// </summary>
internal sealed class ScoreTiming(MessageLog log)
{
    // Parts that a decimal number of divisions is counted in; the format allows fractions of divisions.
    private const long Fine = 1000;
    private const int Rounded = 192;

    private long divisions = Fine;

    public TimeSignature Time { get; private set; } = TimeSignature.Common;

    public void Read(XElement attributes)
    {
        if (Number(attributes.Element("divisions")) is { } parts and > 0 and <= AbcLimits.Grid * Fine)
            divisions = parts;
        if (
            attributes.Element("time") is { } element
            && MetreField.Read($"{(string?)element.Element("beats")}/{(string?)element.Element("beat-type")}")
                is { } read
        )
            Time = read;
    }

    /// <summary>Whole notes; what is no length, or longer than any bar, counts as none.</summary>
    public Fraction Duration(XElement element) =>
        Whole(element.Element("duration")) is { } length && length >= Fraction.Zero
            ? OnGrid(length) ?? BySign(element, length) ?? Round(element, length)
            : Fraction.Zero;

    /// <summary>Whole notes from where an element stands to where it counts, before or after; null where none can be read.</summary>
    public Fraction? Offset(XElement element) =>
        element.Element("offset") is not { } offset ? Fraction.Zero
        : Whole(offset) is { } whole ? OnGrid(whole)
        : null;

    private Fraction? Whole(XElement? element)
    {
        if (Number(element) is not { } parts || Math.Abs(parts) / 4 > divisions * AbcLimits.LongestBar)
            return null;
        return new(parts, 4 * divisions);
    }

    private static Fraction? OnGrid(Fraction length) => AbcLimits.Grid % length.Denominator == 0 ? length : null;

    // Type, dots and the ratio of a tuplet say exactly what a rounded number of divisions means.
    private static Fraction? BySign(XElement note, Fraction length)
    {
        if (NoteValue.LengthOf((string?)note.Element("type") ?? "") is not { } sign)
            return null;
        var dots = Math.Min(4, note.Elements("dot").Count());
        sign *= new Fraction(2) - new Fraction(1, 1 << dots);
        var ratio = note.Element("time-modification");
        if (
            int.TryParse((string?)ratio?.Element("actual-notes"), out var actual)
            && int.TryParse((string?)ratio!.Element("normal-notes"), out var normal)
            && actual is >= 1 and <= 64
            && normal is >= 1 and <= 64
        )
            sign *= new Fraction(normal, actual);
        return Math.Abs((sign - length).ToDouble()) < 1.0 / 128 ? OnGrid(sign) : null;
    }

    private Fraction Round(XElement element, Fraction length)
    {
        var (line, column) = MusicXmlReader.Place(element);
        log.NoteOnce(line, column, "lengths that no sign stands for are rounded to a 192nd of a whole note");
        return new((long)Math.Round(length.ToDouble() * Rounded), Rounded);
    }

    private static long? Number(XElement? element) =>
        decimal.TryParse(
            (string?)element,
            NumberStyles.AllowDecimalPoint
                | NumberStyles.AllowLeadingSign
                | NumberStyles.AllowLeadingWhite
                | NumberStyles.AllowTrailingWhite,
            CultureInfo.InvariantCulture,
            out var value
        )
        && Math.Abs(value) < 1_000_000_000
            ? (long)Math.Round(value * Fine)
            : null;
}
