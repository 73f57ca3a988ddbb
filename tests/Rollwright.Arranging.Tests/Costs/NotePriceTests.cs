using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Arranging.Tests.Costs;

/// <summary>Habits of the style that a price must tell apart (common practice, no source).</summary>
public class NotePriceTests
{
    private const int FSharp = 66;

    private static readonly Weights Prices = Weights.Roll;

    private static readonly NotePrice Notes = new(Prices, new Setting(TuningTable.OpenG, 0, new Key(new(Letter.G)), 0));

    private static StepPlace Place(int strength, int? onset = null, int? sounding = null) =>
        new()
        {
            Bar = 0,
            At = Fraction.Zero,
            Length = new(1, 8),
            Main = 0,
            Strength = strength,
            Onset = onset,
            Sounding = sounding,
            Weight = 1000,
        };

    [Theory]
    [InlineData(RightFinger.T, 3, 2, null)]
    [InlineData(RightFinger.I, 3, 1, null)]
    [InlineData(RightFinger.I, 3, 2, Term.BeatIndex)]
    [InlineData(RightFinger.M, 2, 3, Term.BeatMiddle)]
    [InlineData(RightFinger.M, 1, 3, null)]
    public void On_a_beat_the_thumb_leads(RightFinger finger, int onString, int strength, Term? expected)
    {
        var terms = new Terms();
        Notes.Finger(ref terms, Place(strength), finger, onString);
        Term[] dearer = [Term.BeatIndex, Term.BeatMiddle];
        terms
            .Entries.Where(entry => dearer.Contains(entry.Term))
            .Select(entry => (Term?)entry.Term)
            .Should()
            .Equal(expected is null ? [] : [expected]);
    }

    [Theory]
    [InlineData(FSharp, true)]
    [InlineData(FSharp - 12, true)]
    [InlineData(FSharp + 2, true)]
    [InlineData(FSharp + 1, false)]
    [InlineData(FSharp - 1, false)]
    [InlineData(null, false)]
    public void The_short_string_rubs_a_semitone_beside_the_tune(int? sounding, bool rubs)
    {
        var terms = new Terms();
        Notes.Of(ref terms, Place(1, sounding: sounding), null, Neck.ShortString, 0);
        terms.Entries.Any(entry => entry.Term == Term.DroneRubs).Should().Be(rubs);
    }

    [Theory]
    [InlineData(1, 0, false)]
    [InlineData(2, 0, true)]
    [InlineData(1, 2, true)]
    public void Off_the_beat_an_open_string_above_the_tune_is_the_roll_itself(int strength, int fret, bool masks)
    {
        var terms = new Terms();
        Notes.Of(ref terms, Place(strength, sounding: 55), null, 1, fret);
        terms.Entries.Any(entry => entry.Term == Term.MasksMelody).Should().Be(masks);
    }

    [Fact]
    public void A_slur_that_reaches_the_tune_within_the_step_costs_less_than_the_note_left_out()
    {
        var place = Place(1, onset: 60);
        Notes.MissingLate(place, 60).Should().BeInRange(1, Notes.Missed(place) - 1);
        Notes.MissingLate(place, 61).Should().Be(Notes.Missed(place));
    }
}
