using Rollwright.Audio;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Beside.Words;
using Rollwright.Listening.Takes;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>What is no take of the break: one sentence says so, and nothing is praised or blamed.</summary>
public class NoTakeTests
{
    private const int Rate = 44_100;

    public static TheoryData<string> Sounds => ["nothing", "silence", "noise", "a hum"];

    [Theory]
    [MemberData(nameof(Sounds))]
    public void No_take_is_called_one(string kind)
    {
        var random = new Random(1);
        float[] values = kind switch
        {
            "nothing" => [],
            "silence" => new float[5 * Rate],
            "noise" => [.. Enumerable.Range(0, 5 * Rate).Select(_ => (0.4f * random.NextSingle()) - 0.2f)],
            _ => [.. Enumerable.Range(0, 5 * Rate).Select(i => 0.3f * MathF.Sin(2 * MathF.PI * 50 * i / Rate))],
        };
        var found = BesideBreak.Compare(new Samples(Rate, 1, [.. values]), SampleBreaks.Small);
        found.Follows.Should().BeFalse();
        var words = TakeWords.Of(SampleBreaks.Small, found);
        words
            .Whole.Should()
            .Equal(
                "This take does not follow the break: 0 % of its notes were found. Choose the break that was played, or have the take written out by itself."
            );
        words.Phrases.Should().BeEmpty();
    }

    [Fact]
    public void A_take_without_a_note_is_none() =>
        BesideBreak.Compare([], Meant.Of(SampleBreaks.Small)).Follows.Should().BeFalse();

    [Fact]
    public void It_can_be_stopped()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var compare = () =>
            BesideBreak.Compare(new Samples(Rate, 1, [.. new float[Rate]]), SampleBreaks.Small, stop.Token);
        compare.Should().Throw<OperationCanceledException>();
    }

    [Fact]
    public void What_is_too_long_beside_a_break_is_said_with_a_remedy()
    {
        var meant = Meant.Of(ChanceBreaks.Make(1));
        var heard = Enumerable.Range(0, 600_000).Select(i => new HeardNote(i / 10.0, 60, 1));
        var compare = () => BesideBreak.Compare([.. heard], meant);
        compare.Should().Throw<TakeException>().WithMessage("*cut it into shorter takes*");
    }
}
