using Rollwright.Audio;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Banjos;

namespace Rollwright.Listening.Tests.Hearing;

/// <summary>A banjo learnt from a slow roll; the sampled banjo is outside the project: fluidsynth and a sound font.</summary>
public class OwnBanjoTests
{
    private static readonly int[] Roll = [3, 2, 5, 1, 4, 2, 5, 1];
    private static readonly int[] Frets = [0, 1, 2, 1, 0, 1, 2, 1, 0];

    [Fact]
    public void A_learnt_banjo_is_heard_at_its_pitch_and_its_notes_stop()
    {
        var banjo = BanjoLearner.Learn(Exercise(hasFrets: true), TuningTable.OpenG)!;
        banjo.KnowsStops.Should().BeTrue();
        banjo
            .Stops!.Stopped.Mean.Should()
            .BeLessThan(banjo.Stops.Ringing.Mean - 3, "fluidsynth damps a note that ends");
        banjo.Notes.Keys.Should().Contain([50, 51, 52, 55, 56, 57, 59, 60, 61, 62, 63, 64, 67]);
        // Three cents: the bench's bound for the offset of a tuning. The take is another roll on the same banjo.
        var take = SampledBanjo.Sound(
            Enumerable
                .Range(0, 32)
                .Select(i => (0.5 + (0.15 * i), Roll[i % 8], TuningTable.OpenG.KeyOf(Roll[i % 8], 0)))
        );
        Listener.Listen(take, new() { Banjo = banjo }).Cents.Should().BeApproximately(0, 3);
    }

    [Fact]
    public void Open_strings_alone_do_not_tell_how_notes_stop() =>
        BanjoLearner.Learn(Exercise(hasFrets: false), TuningTable.OpenG)!.KnowsStops.Should().BeFalse();

    [Fact]
    public void Silence_is_no_banjo() =>
        BanjoLearner.Learn(new Samples(44_100, 1, new float[88_200]), TuningTable.OpenG).Should().BeNull();

    [Fact]
    public void What_was_learnt_is_read_again_as_it_was_written()
    {
        var banjo = BanjoLearner.Learn(Exercise(hasFrets: true), TuningTable.OpenG)!;
        var text = OwnBanjoText.Write(banjo);
        OwnBanjoText.Write(OwnBanjoText.Parse("banjo.txt", text)).Should().Be(text);
    }

    [Theory]
    [InlineData("what | values\ncents | 2", "banjo.txt:1*missing*")]
    [InlineData("what | values\ncents | x", "banjo.txt:2*1 numbers*")]
    [InlineData("what | values\ncents | 2\nnote 50 | 1 0", "banjo.txt:3*numbers*")]
    [InlineData("what | values\nbridge | 2", "banjo.txt:2*bridge*")]
    public void What_is_no_banjo_is_refused_with_its_place(string text, string fault) =>
        FluentActions
            .Invoking(() => OwnBanjoText.Parse("banjo.txt", text))
            .Should()
            .Throw<DataException>()
            .WithMessage(fault);

    private static Samples Exercise(bool hasFrets)
    {
        var notes = Enumerable.Repeat(Roll, 3).SelectMany(on => on).Select(on => (String: on, Fret: 0));
        if (hasFrets)
            notes = notes.Concat(new[] { 4, 3, 2, 1 }.SelectMany(on => Frets.Select(fret => (on, fret))));
        return SampledBanjo.Sound(
            notes.Select((note, i) => (0.5 + (0.4 * i), note.String, TuningTable.OpenG.KeyOf(note.String, note.Fret)))
        );
    }
}
