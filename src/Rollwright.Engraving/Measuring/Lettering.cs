using System.Buffers;
using System.Collections.Concurrent;
using System.Text;
using Rollwright.Engraving.Drawing;
using SkiaSharp;

namespace Rollwright.Engraving.Measuring;

/// <summary>
/// The text fonts: a serif for words, a sans serif for tab numbers. Flats, naturals and sharps inside words have a font of
/// their own, as the text fonts have none; those of the music font do not stand on the baseline, and raised ones are torn
/// from their words when a PDF is read as text. All are TrueType: cubic outlines would be embedded as mere drawings.
/// </summary>
internal static class Lettering
{
    private const float Fine = 1000;

    private static readonly string[] Files =
    [
        "serif-regular.ttf",
        "serif-italic.ttf",
        "serif-bold.ttf",
        "sans-regular.ttf",
        "sans-bold.ttf",
    ];

    private static readonly SearchValues<char> Hanging = SearchValues.Create("gjpqyQ,;()[]/");

    private static readonly Lazy<SKTypeface>[] Loaded =
    [
        .. Files.Select(file => new Lazy<SKTypeface>(() => FontResource.Typeface(file))),
    ];

    private const string SignsFile = "signs-regular.ttf";

    private static readonly Lazy<SKTypeface> LoadedSigns = new(() => FontResource.Typeface(SignsFile));

    private static readonly ConcurrentDictionary<(Face? Face, int CodePoint), double> Advances = new();

    private static SKTypeface Signs => LoadedSigns.Value;

    public static SKTypeface Typeface(Face face) => Loaded[(int)face].Value;

    /// <summary>The font of a run.</summary>
    public static SKTypeface TypefaceOf(Run run, Face face) => run.IsSign ? Signs : Typeface(face);

    /// <summary>A font file with the outlines of these characters, for outputs that carry their fonts.</summary>
    /// <param name="face">Null for the signs of alteration.</param>
    /// <param name="characters">What is written in it.</param>
    public static byte[] FontFile(Face? face, IEnumerable<Rune> characters) =>
        face is { } known
            ? FontSubset.Of(FontResource.Bytes(Files[(int)known]), Typeface(known), characters)
            : FontSubset.Of(FontResource.Bytes(SignsFile), Signs, characters);

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
