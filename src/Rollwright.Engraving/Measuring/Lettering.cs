using System.Buffers;
using System.Collections.Concurrent;
using Rollwright.Engraving.Drawing;
using SkiaSharp;

namespace Rollwright.Engraving.Measuring;

/// <summary>
/// The text fonts: TeX Gyre Schola for words, TeX Gyre Heros for tab numbers. Flats, naturals and sharps inside words
/// are taken from TeX Gyre Schola Math, as the text fonts have none; those of the music font do not stand on the
/// baseline, and raised ones are torn from their words when a PDF is read as text.
/// </summary>
internal static class Lettering
{
    private const float Fine = 1000;

    private static readonly string[] Files =
    [
        "texgyreschola-regular.otf",
        "texgyreschola-italic.otf",
        "texgyreschola-bold.otf",
        "texgyreheros-regular.otf",
        "texgyreheros-bold.otf",
    ];

    private static readonly SearchValues<char> Hanging = SearchValues.Create("gjpqyQ,;()[]/");

    private static readonly Lazy<SKTypeface>[] Loaded =
    [
        .. Files.Select(file => new Lazy<SKTypeface>(() => FontResource.Typeface(file))),
    ];

    private static readonly Lazy<SKTypeface> LoadedSigns = new(() => FontResource.Typeface("texgyreschola-math.otf"));

    private static readonly ConcurrentDictionary<(Face? Face, int CodePoint), double> Advances = new();

    private static SKTypeface Signs => LoadedSigns.Value;

    public static SKTypeface Typeface(Face face) => Loaded[(int)face].Value;

    /// <summary>The font of a run.</summary>
    public static SKTypeface TypefaceOf(Run run, Face face) => run.IsSign ? Signs : Typeface(face);

    /// <summary>The bytes of the face's font file, for outputs that carry their fonts.</summary>
    public static byte[] FontFile(Face face) => FontResource.Bytes(Files[(int)face]);

    /// <summary>Width in points.</summary>
    public static double WidthOf(string text, double size, Face face)
    {
        var width = 0.0;
        foreach (var run in RunsOf(text))
        {
            foreach (var rune in run.Text.EnumerateRunes())
                width += AdvanceOf(run.IsSign ? null : face, rune.Value) * size;
        }
        return width;
    }

    /// <summary>Capital height as a part of the size; digits are as high (both text fonts).</summary>
    public const double CapitalHeight = 0.73;

    /// <summary>The room of a line of words: from the capitals' top to what hangs below the baseline.</summary>
    public static Box BoxOf(string text, double x, double y, double size, Face face, Anchor anchor)
    {
        var width = WidthOf(text, size, face);
        var left =
            x
            - (
                anchor == Anchor.Left ? 0
                : anchor == Anchor.Middle ? width / 2
                : width
            );
        var hangs = text.AsSpan().IndexOfAny(Hanging) >= 0;
        return new(left, y - (size * CapitalHeight), left + width, y + (size * (hangs ? 0.22 : 0.02)));
    }

    /// <summary>Parts a line into words and signs of alteration.</summary>
    public static IEnumerable<Run> RunsOf(string text)
    {
        var start = 0;
        for (var i = 1; i <= text.Length; i++)
        {
            if (i < text.Length && IsSign(text[i]) == IsSign(text[start]))
                continue;
            yield return new(text[start..i], IsSign(text[start]));
            start = i;
        }
    }

    private static bool IsSign(char letter) => letter is '♭' or '♮' or '♯';

    private static double AdvanceOf(Face? face, int codePoint) =>
        Advances.GetOrAdd(
            (face, codePoint),
            static key =>
            {
                using var font = new SKFont(key.Face is { } face ? Typeface(face) : Signs, Fine);
                return font.MeasureText(char.ConvertFromUtf32(key.CodePoint)) / Fine;
            }
        );

    /// <summary>A part of a line set in one font.</summary>
    public readonly record struct Run(string Text, bool IsSign);
}
