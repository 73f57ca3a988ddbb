using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>Breaks by chance, AABB in four bars each: rolls, pinches, slurs; no two bars alike.</summary>
internal static class ChanceBreaks
{
    public const int BarsOfPart = 4;

    public static Break Make(int seed)
    {
        var random = new Random(seed);
        var bars = Enumerable
            .Range(0, 2 * BarsOfPart)
            .Select(i =>
                SampleBreaks.Bar(
                    Tokens(random),
                    new()
                    {
                        Part =
                            i == 0 ? "A"
                            : i == BarsOfPart ? "B"
                            : null,
                        RepeatStart = i is BarsOfPart,
                        RepeatEnd = i % BarsOfPart == BarsOfPart - 1 ? 2 : 0,
                        SectionEnd = i % BarsOfPart == BarsOfPart - 1,
                    }
                )
            );
        return new()
        {
            Title = "By chance",
            Setting = new(TuningTable.OpenG, 0, new Key(new PitchName(Letter.G)), -12),
            Time = TimeSignature.Cut,
            Tempo = new(new Fraction(1, 2), random.Next(50, 100)),
            Bars = [.. bars],
        };
    }

    private static string Tokens(Random random)
    {
        var tokens = new List<string>();
        var last = 0;
        while (tokens.Count < 8)
        {
            var banjoString = random.Next(1, 6);
            if (banjoString == last)
                continue;
            last = banjoString;
            var fret = banjoString == 5 ? 0 : random.Next(0, 5);
            var finger =
                banjoString == 1 ? 'M'
                : banjoString == 2 ? 'I'
                : 'T';
            if (banjoString == 1 && random.Next(6) == 0)
                tokens.Add($"3.{random.Next(0, 4)}T+1.{fret}M");
            else
                tokens.Add($"{banjoString}.{fret}{finger}");
            if (tokens.Count < 8 && fret > 0 && !tokens[^1].Contains('+') && random.Next(6) == 0)
                tokens.Add(random.Next(2) == 0 ? $"h{fret + 2}" : "p0");
        }
        return string.Join(' ', tokens);
    }
}
