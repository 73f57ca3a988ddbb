using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>The seam to the rooms that read, arrange and draw; a fixed roll until they are joined here.</summary>
internal static class BreakMaker
{
    public const string UsualLevel = "usual";

    public static ImmutableArray<string> Levels { get; } = ["easy", "usual", "hard"];

    public static (ImmutableArray<Tune> Tunes, ImmutableArray<Problem> Problems) Read(string text, string fileName) =>
        text.Contains("K:", StringComparison.Ordinal)
            ? (
                [
                    .. text.Split('\n')
                        .Where(line => line.StartsWith("T:", StringComparison.Ordinal))
                        .Select(line => new Tune
                        {
                            Title = line[2..].Trim(),
                            Key = new Key(new PitchName(Letter.G)),
                            Time = TimeSignature.Cut,
                            Bars = [],
                        }),
                ],
                []
            )
            : ([], [new(1, 1, "there is no K: line", "add one, such as K:G", true)]);

    public static (Made? Made, ImmutableArray<Problem> Problems) Make(Tune tune, Wishes wishes)
    {
        int[] strings = [3, 2, 5, 1, 4, 2, 5, 1];
        var bar = new BreakBar
        {
            Length = new(1),
            Time = TimeSignature.Cut,
            Strokes =
            [
                .. strings.Select(
                    (s, i) =>
                        new Stroke
                        {
                            At = new Fraction(i, 8),
                            Length = new Fraction(1, 8),
                            String = s,
                            Fret = 0,
                            Right = RightFinger.T,
                            IsMelody = i % 4 == 0,
                        }
                ),
            ],
        };
        var made = new Break
        {
            Title = tune.Title,
            Setting = new(TuningTable.OpenG, wishes.Capo ?? 0, tune.Key, -12),
            Time = TimeSignature.Cut,
            Tempo = new(new Fraction(1, 2), 80),
            Bars = [bar, bar, bar, bar],
        };
        return (new("x" + wishes.Capo, made), []);
    }

    public static string Draw(Break played)
    {
        var strokes = played
            .Bars.SelectMany(
                (bar, b) => bar.Strokes.Select((stroke, i) => (Name: $"s-{b}-{i}", stroke, X: (b * 200) + (i * 25)))
            )
            .Select(s =>
                $"<g id='{s.Name}'><text x='{s.X + 10}' y='{s.stroke.String * 12}'>{s.stroke.Fret}</text></g>"
            );
        return $"<svg viewBox='0 0 810 80' xmlns='http://www.w3.org/2000/svg'>{string.Concat(strokes)}</svg>";
    }
}
