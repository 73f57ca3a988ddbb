using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Banjo.Tests.Licks;

public class LickTests
{
    public static TheoryData<string> Names => [.. LickTable.All.Select(lick => lick.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Hands_can_play_the_lick(string name) => Checker.Check(Written(Find(name))).Should().BeEmpty();

    [Theory]
    [MemberData(nameof(Names))]
    public void The_lick_fits_its_chord_save_for_what_a_slur_starts_from_and_the_drone(string name)
    {
        var lick = Find(name);
        foreach (var step in lick.Steps.Where(step => step.HalfSlur is null && !step.Plucks.IsEmpty))
        {
            foreach (var note in step.Plucks.Where(note => note.String != 5))
            {
                var isSlurred = lick.Steps.SkipWhile(other => other != step).Skip(1).FirstOrDefault()?.Slur is not null;
                var key = lick.Tuning.KeyOf(note.String, note.Fret);
                (isSlurred || lick.Chord.Contains(key)).Should().BeTrue($"{note} in {lick.Chord}");
            }
        }
    }

    [Fact]
    public void No_two_licks_have_the_same_name_or_the_same_notes()
    {
        LickTable.All.Select(lick => lick.Name).Should().OnlyHaveUniqueItems();
        LickTable
            .All.Select(lick => lick.Role + " " + string.Join(' ', lick.Steps.Select(Sign)))
            .Should()
            .OnlyHaveUniqueItems();
    }

    [Theory]
    [InlineData("3.0X", "'3.0X' is not a note")]
    [InlineData("h2", "no plucked note to start from")]
    [InlineData("3.0T+1.0Mh2", "slurs out of a pinch")]
    public void A_wrong_token_is_named_with_file_and_line(string tab, string what)
    {
        var reading = () =>
            LickTable.Parse("mine.txt", $"name|role|tuning|chord|level|beats|tab\nx|fill|open-g|G|1|twos|{tab}");
        reading.Should().Throw<DataException>().WithMessage($"mine.txt:2: *{what}*");
    }

    private static string Sign(LickStep step) =>
        string.Join('+', step.Plucks.Select(note => $"{note.String}.{note.Fret}"))
        + step.Slur?.Fret
        + "/"
        + step.HalfSlur?.Fret;

    private static Lick Find(string name) => LickTable.All.First(lick => lick.Name == name);

    private static Break Written(Lick lick)
    {
        var step = new Fraction(1, 8);
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        for (var i = 0; i < lick.Steps.Length; i++)
        {
            foreach (var note in lick.Steps[i].Plucks)
                strokes.Add(Stroke(step * i, note.String, note.Fret, note.Left) with { Right = note.Right });
            if (lick.Steps[i].Slur is { } slur)
                strokes.Add(Stroke(step * i, slur.String, slur.Fret, slur.Left) with { Slur = slur.Kind });
            if (lick.Steps[i].HalfSlur is { } half)
                strokes.Add(
                    Stroke((step * i) + new Fraction(1, 16), half.String, half.Fret, half.Left) with
                    {
                        Slur = half.Kind,
                    }
                );
        }
        return new()
        {
            Title = lick.Name,
            Setting = new(lick.Tuning, 0, new Key(new PitchName(Letter.G)), -12),
            Time = TimeSignature.Cut,
            Tempo = new(new Fraction(1, 2), 80),
            Bars =
            [
                new()
                {
                    Length = step * lick.Steps.Length,
                    Time = TimeSignature.Cut,
                    Strokes = strokes.ToImmutable(),
                },
            ],
        };
    }

    private static Stroke Stroke(Fraction at, int on, int fret, int left) =>
        new()
        {
            At = at,
            Length = new Fraction(1, 16),
            String = on,
            Fret = fret,
            Left = left == 0 ? null : left,
        };
}
