using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Tests.Licks;

/// <summary>What every lick of data/licks keeps to.</summary>
public class LickBankTests
{
    public static TheoryData<string> Names => [.. LickTable.All.Select(lick => lick.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Hands_can_play_the_lick_and_a_fill_round_and_round(string name)
    {
        var lick = Find(name);
        Checker.Check(LickBreak.Of(lick, lick.Role == LickRole.Fill ? 3 : 1)).Should().BeEmpty();
    }

    // Common practice, no source. On the felt beat (every fourth step; every third in threes; counted back from the bar
    // line in pickups and turnarounds) stand tones of the chord. Between, the second and sixth of a major chord, the
    // fourth and seventh of a minor one stand freely; any other note moves on by a semitone or two within two steps, or
    // in the last two steps leads to a tone of the next chord. Free are the open short string, and a note that a slur
    // leaves at once. In a run a passing note may fall on the beat if the next step moves on. Written here without the
    // code that judges players' licks, and compared with it.
    [Theory]
    [MemberData(nameof(Names))]
    public void The_lick_fits_its_chord(string name)
    {
        var lick = Find(name);
        var sounds = Sounds(lick).ToArray();
        // A fill goes round: what follows its end is its beginning.
        var round = lick.Role == LickRole.Fill ? sounds.Select(s => s with { At = s.At + lick.Length }).ToArray() : [];
        var beat = lick.IsInThrees ? 3 : 4;
        var first = lick.Role is LickRole.Pickup or LickRole.Turnaround ? (beat - (lick.Length % beat)) % beat : 0;
        foreach (var sound in sounds)
        {
            var isOnBeat = (sound.At + first) % beat == 0;
            var above = (((sound.Key - lick.Chord.Root.PitchClass) % 12) + 12) % 12;
            var colour = lick.Chord.Suffix.StartsWith('m') ? (int[])[5, 10] : [2, 9];
            var within = isOnBeat ? 1 : 2;
            var movesOn = sounds
                .Concat(round)
                .Any(s => s.At > sound.At && s.At <= sound.At + within && Math.Abs(s.Key - sound.Key) is 1 or 2);
            var leadsOn =
                sound.At >= lick.Length - 2
                && lick.Next is { } next
                && Enumerable.Range(-2, 5).Any(by => next.Contains(sound.Key + by));
            var fits =
                sound.IsLeft
                || lick.Chord.Contains(sound.Key)
                || (!isOnBeat && colour.Contains(above))
                || ((!isOnBeat || lick.Role == LickRole.Run) && (movesOn || leadsOn));
            fits.Should().BeTrue($"key {sound.Key} at step {sound.At + 1} over {lick.Chord}");
        }
        ChordFit.Misfits(lick).Should().BeEmpty();
    }

    [Fact]
    public void No_two_licks_have_the_same_name_or_the_same_notes()
    {
        LickTable.All.Select(lick => lick.Name.ToUpperInvariant()).Should().OnlyHaveUniqueItems();
        LickTable.All.Select(Sign).Should().OnlyHaveUniqueItems();
    }

    [Fact]
    public void The_bank_has_each_role_each_main_chord_each_register_and_level()
    {
        var licks = LickTable.All;
        licks.Should().HaveCountGreaterThanOrEqualTo(150);
        foreach (var role in Enum.GetValues<LickRole>())
            licks.Count(lick => lick.Role == role).Should().BeGreaterThanOrEqualTo(10, $"{role}");
        string[] chords = ["G", "C", "D", "D7", "Em", "Am", "A", "F", "Bm", "E7"];
        foreach (var chord in chords)
            licks.Count(lick => $"{lick.Chord}" == chord).Should().BeGreaterThanOrEqualTo(4, chord);
        foreach (var register in Enum.GetValues<Register>())
            licks.Count(lick => lick.Register == register).Should().BeGreaterThanOrEqualTo(4, $"{register}");
        for (var level = 1; level <= 5; level++)
            licks.Count(lick => lick.Level == level).Should().BeGreaterThanOrEqualTo(5, $"level {level}");
        licks.Select(lick => lick.Length).Should().Contain([2, 3, 4, 6, 8, 9, 16]);
    }

    // Tunes must close whatever their key, their tuning and the length that their pickup leaves to the last bar.
    [Theory]
    [InlineData("open-g", "G")]
    [InlineData("open-g", "C")]
    [InlineData("open-g", "D")]
    [InlineData("open-g", "Em")]
    [InlineData("open-g", "Am")]
    [InlineData("open-g", "A")]
    [InlineData("open-g-a", "D")]
    [InlineData("drop-c", "C")]
    [InlineData("double-c", "C")]
    [InlineData("g-modal", "G")]
    [InlineData("g-modal", "Gm")]
    [InlineData("open-d", "D")]
    [InlineData("g-minor", "Gm")]
    [InlineData("d-minor", "Dm")]
    public void A_first_year_player_can_close_a_tune(string tuning, string chord)
    {
        var tags = LickTable
            .All.Where(lick =>
                lick.Role == LickRole.Tag && lick.Tuning.Id == tuning && $"{lick.Chord}" == chord && lick.Level <= 2
            )
            .ToArray();
        var bars = tags.Where(lick => !lick.IsInThrees).ToArray();
        foreach (var length in new[] { 8, 7, 6, 5 })
            bars.Should().Contain(lick => lick.SoundingLength <= length && lick.Length >= length, $"{length} steps");
        tags.Should().Contain(lick => lick.IsInThrees && lick.SoundingLength <= 5 && lick.Length >= 5);
    }

    [Fact]
    public void Level_one_has_no_slur_and_no_more_than_two_fingers_on_the_first_three_frets() =>
        LickTable
            .All.Where(lick => lick.Level == 1)
            .Should()
            .OnlyContain(lick => lick.Slurs == 0 && lick.HighestFret <= 3 && lick.LeftFingers <= 2);

    [Fact]
    public void High_licks_are_for_the_fourth_and_fifth_year() =>
        LickTable
            .All.Where(lick => lick.Register != Register.Low)
            .Should()
            .OnlyContain(lick => lick.Level >= 4 && lick.HighestFret <= 17);

    [Fact]
    public void Turnarounds_and_pickups_say_where_they_lead_and_fills_lead_anywhere()
    {
        foreach (var lick in LickTable.All)
        {
            if (lick.Role is LickRole.Turnaround or LickRole.Pickup)
                lick.Next.Should().NotBeNull(lick.Name);
            if (lick.Role is LickRole.Fill or LickRole.Tag)
                lick.Next.Should().BeNull(lick.Name);
        }
    }

    [Fact]
    public void Slurs_are_the_usual_ones()
    {
        foreach (var lick in LickTable.All)
        {
            for (var i = 0; i < lick.Length; i++)
            {
                if (lick.Steps[i].HalfSlur is { } half)
                    Usual(half, lick.Steps[i].Plucks[0]).Should().BeTrue($"{lick.Name}, step {i + 1}");
                if (lick.Steps[i].Slur is { } slur)
                    Usual(slur, lick.Steps[i - 1].Plucks[0]).Should().BeTrue($"{lick.Name}, step {i + 1}");
            }
        }
    }

    private static bool Usual(LickSlur slur, LickNote from) =>
        SlurTable.All.Contains(new(slur.Kind, slur.String, from.Fret, slur.Fret));

    private static Lick Find(string name) => LickTable.All.First(lick => lick.Name == name);

    private sealed record Sound(int At, int Key, bool IsLeft);

    private static IEnumerable<Sound> Sounds(Lick lick)
    {
        for (var i = 0; i < lick.Length; i++)
        {
            var step = lick.Steps[i];
            var next = i + 1 < lick.Length ? lick.Steps[i + 1].Slur : null;
            foreach (var note in step.Plucks.Where(note => note is not { String: Neck.ShortString, Fret: 0 }))
                yield return new(
                    i,
                    lick.Tuning.KeyOf(note.String, note.Fret),
                    step.HalfSlur is not null || next?.String == note.String
                );
            if (step.Slur is { } slur)
                yield return new(i, lick.Tuning.KeyOf(slur.String, slur.Fret), false);
        }
    }

    private static string Sign(Lick lick)
    {
        var steps = lick.Steps.Select(step =>
            string.Join('+', step.Plucks.Select(note => $"{note.String}.{note.Fret}"))
            + $"{step.Slur?.Fret}/{step.HalfSlur?.Fret}"
        );
        return lick.Tuning.Id + string.Join(' ', steps).TrimEnd('/', ' ');
    }
}
