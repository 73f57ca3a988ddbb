using Rollwright.Arranging.Locks;
using Rollwright.Formats.Abc;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Tests.Locking;

/// <summary>A tune of four bars in cut time: eight steps a bar, two beats of four.</summary>
public class LockReaderTests
{
    private static readonly Arrangement Made = Arranger.Arrange(
        AbcReader
            .Read("X:1\nT:Plain\nM:2/2\nL:1/8\nK:G\n\"G\"G2B2d2B2|\"C\"c2e2c2A2|\"D\"d2f2a2f2|\"G\"g4G4|\n", "t.abc")
            .Tunes[0],
        new() { Level = 3 }
    );

    public static TheoryData<string, string> Read =>
        new()
        {
            { "3 rest", "16: silence" },
            { "1/1 note 3.2T", "0: string 3 fret 2 with T" },
            { "1/1.5 note 5.0", "2: string 5 open" },
            { "2/2 note 1.12M", "12: string 1 fret 12 with M" },
            { "1 no-slur", "0-7: no slur" },
            { "1-2 no-slur", "0-15: no slur" },
            { "1/2-2/1 no-slur", "4-8: no slur" },
            { "4/1.25 rest", "25: silence" },
            { "  2   frets   5 ", "8-15: only frets up to 5" },
            { "2/1-3 frets 0", "8-23: only frets up to 0" },
            { "2 shape 2-0-1-2", "8-15: shape 2-0-1-2 held" },
            { "2/2 shape x-0-x-12", "12: shape x-0-x-12 held" },
        };

    [Theory]
    [MemberData(nameof(Read))]
    public void A_lock_is_read_at_its_place(string text, string meaning)
    {
        var kept = LockReader.Read(text, Made).Should().ContainSingle().Which;
        Say(kept).Should().Be(meaning);
    }

    [Fact]
    public void Keep_is_a_lock_on_every_step_that_allows_what_is_there()
    {
        var kept = LockReader.Read("2/2-3/1 keep", Made);
        kept.Select(one => one.First).Should().Equal(12, 13, 14, 15, 16);
        kept.Should().OnlyContain(one => one.Allows(one.First, Made.PathAt(one.First)));
        Made.With(kept).Cost.Should().Be(Made.Cost);
    }

    [Fact]
    public void A_lick_is_found_by_its_name_whatever_the_case_and_the_quotes()
    {
        var step = Enumerable.Range(0, Made.Grid.Steps.Length).First(step => !Made.LicksAt(step).IsEmpty);
        var place = Made.LicksAt(step)[0];
        var where = $"{Made.Grid.Steps[step].Bar + 1}/{1 + (step % 8 / 4.0)}";
        foreach (var name in new[] { place.Lick.Name, $"'{place.Lick.Name}'", place.Lick.Name.ToUpperInvariant() })
            LockReader.Read($"{where} lick {name}", Made).Should().Equal(new LickLock(place));
    }

    [Fact]
    public void What_was_read_is_kept_by_the_break_that_is_made_with_it()
    {
        foreach (var text in new[] { "1/1 note 3.0T", "2/1.25 rest", "3 no-slur", "1-4 frets 4", "2/2 shape 2-0-1-2" })
        {
            var kept = LockReader.Read(text, Made);
            var made = Made.With(kept);
            foreach (var one in kept)
            {
                for (var step = one.First; step <= one.Last; step++)
                    one.Allows(step, made.PathAt(step)).Should().BeTrue(text);
            }
        }
    }

    [Theory]
    [InlineData("", "write a place and what is asked there, such as '3/2 note 3.2T' or '5-8 no-slur'")]
    [InlineData("3", "write a place and what is asked there, such as '3/2 note 3.2T' or '5-8 no-slur'")]
    [InlineData("x rest", "a place is a bar, bar/beat or a span of them: 3, 3/2, 5-8, 5/1-6/2.5")]
    [InlineData("1/ rest", "a place is a bar, bar/beat or a span of them: 3, 3/2, 5-8, 5/1-6/2.5")]
    [InlineData("-1 rest", "a place is a bar, bar/beat or a span of them: 3, 3/2, 5-8, 5/1-6/2.5")]
    [InlineData("99999999999 rest", "a place is a bar, bar/beat or a span of them: 3, 3/2, 5-8, 5/1-6/2.5")]
    [InlineData("0 rest", "there is no bar 0; the tune's bars are 1 to 4")]
    [InlineData("5 rest", "there is no bar 5; the tune's bars are 1 to 4")]
    [InlineData("1/3 rest", "bar 1 has no step at beat 3")]
    [InlineData("1/0 rest", "bar 1 has no step at beat 0")]
    [InlineData("1/1.1 rest", "bar 1 has no step at beat 1.1")]
    [InlineData("3-2 no-slur", "the span ends before it begins")]
    [InlineData(
        "1 dance",
        "what is asked is one of note, rest, slur, pinch, T, I, M, no-slur, frets N, way, shape, lick, keep"
    )]
    [InlineData(
        "1 frets",
        "what is asked is one of note, rest, slur, pinch, T, I, M, no-slur, frets N, way, shape, lick, keep"
    )]
    [InlineData(
        "1 frets -2",
        "what is asked is one of note, rest, slur, pinch, T, I, M, no-slur, frets N, way, shape, lick, keep"
    )]
    [InlineData("1/1 note", "a note is string.fret and, if wanted, the finger: 3.2T, 5.0")]
    [InlineData("1/1 note 6.0", "a note is string.fret and, if wanted, the finger: 3.2T, 5.0")]
    [InlineData("1/1 note 3.2R", "a note is string.fret and, if wanted, the finger: 3.2T, 5.0")]
    [InlineData("1/1 note 5.3", "string 5 has no fret 3")]
    [InlineData("1/1 note 3.23", "string 3 has no fret 23")]
    [InlineData("1 shape 2-0-1", "a shape is the frets of strings 4-3-2-1: 2-0-1-2, x where it does not matter")]
    [InlineData("1 shape 2-0-1-y", "a shape is the frets of strings 4-3-2-1: 2-0-1-2, x where it does not matter")]
    [InlineData("1 shape 2-0-1-23", "a shape is the frets of strings 4-3-2-1: 2-0-1-2, x where it does not matter")]
    [InlineData("1/1.25 lick no such lick", "no lick fits there by chord, tuning, level and length")]
    public void What_is_no_lock_gets_one_clear_message(string text, string message)
    {
        var reading = () => LockReader.Read(text, Made);
        reading.Should().Throw<ArrangeException>().WithMessage($"lock '{text}': {message}");
    }

    private static string Say(Lock kept) =>
        kept.First == kept.Last || kept is RestLock
            ? $"{kept.First}: {kept.Words}"
            : $"{kept.First}-{kept.Last}: {kept.Words}";
}
