using System.Collections.Immutable;
using CsCheck;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Tests.Licks;

public class LickTabTests
{
    [Fact]
    public void What_is_written_reads_back_the_same() =>
        Steps.Sample(steps => LickTab.Read(LickTabWriter.Write(steps)).SequenceEqual(steps), iter: 2000);

    [Fact]
    public void Any_text_is_read_or_refused_with_its_place() =>
        Gen.OneOf(Gen.String[Gen.Char["12345.0hpsTIM:+- "], 0, 30], Gen.String)
            .Sample(
                text =>
                {
                    try
                    {
                        var steps = LickTab.Read(text);
                        return LickTab.Read(LickTabWriter.Write(steps)).SequenceEqual(steps);
                    }
                    catch (LickTabException wrong)
                    {
                        return wrong.Message.Length > 0 && wrong.Offset >= 0 && wrong.Offset <= text.Length;
                    }
                },
                iter: 5000
            );

    [Theory]
    [InlineData("3.0T 3.0X", 5, "'3.0X' is not a note")]
    [InlineData("3.0T 3.20", 5, "'3.20' is not a note")]
    [InlineData("6.0T", 0, "'6.0T' is not a note")]
    [InlineData("h2", 0, "no plucked note to start from")]
    [InlineData("3.0T - h2", 7, "no plucked note to start from")]
    [InlineData("3.0T+1.0Mh2", 0, "slurs out of a pinch")]
    [InlineData("3.0T+3.2I", 0, "string 3 for two notes")]
    [InlineData("3.2T:7", 0, "no left-hand finger")]
    [InlineData("3.0T:2", 0, "an open string takes no finger")]
    [InlineData("3.2Ts4:3", 0, "a slide keeps its finger")]
    [InlineData("- -", 0, "no note")]
    [InlineData("", 0, "no note")]
    public void A_wrong_token_is_named_with_its_place(string tab, int offset, string what)
    {
        var reading = () => LickTab.Read(tab);
        reading.Should().Throw<LickTabException>().WithMessage($"*{what}*").Which.Offset.Should().Be(offset);
    }

    // A note on every string at most once; slurs only where a single pluck stands before.
    private static readonly Gen<LickNote> Note =
        from banjoString in Gen.Int[1, 5]
        from fret in Gen.Int[0, 22]
        from right in Gen.Enum<RightFinger>()
        from left in Gen.Int[1, 4]
        select new LickNote(banjoString, fret, right, fret == 0 ? 0 : left);

    private static readonly Gen<(int Kind, int Fret, int Left)> Slur = Gen.Select(
        Gen.Int[0, 2],
        Gen.Int[0, 22],
        Gen.Int[1, 4]
    );

    private static readonly Gen<ImmutableArray<LickStep>> Steps = Gen.Select(Gen.Int[0, 4], Note.Array[1, 3], Slur)
        .Array[1, LickTab.MostSteps]
        .Select(parts =>
        {
            var steps = ImmutableArray.CreateBuilder<LickStep>();
            LickNote? last = null;
            foreach (var (kind, notes, slur) in parts)
            {
                var step = kind switch
                {
                    0 => LickStep.Rest,
                    1 when last is { } from => new([], Made(slur, from), null),
                    2 => new([notes[0]], null, Made(slur, notes[0])),
                    _ => new([.. notes.DistinctBy(note => note.String).OrderBy(note => note.String)], null, null),
                };
                last = step is { Plucks: [var one], HalfSlur: null } ? one : null;
                steps.Add(step);
            }
            if (steps.All(step => step.IsRest))
                steps[0] = new([new(3, 0, RightFinger.T, 0)], null, null);
            return steps.ToImmutable();
        });

    private static LickSlur Made((int Kind, int Fret, int Left) slur, LickNote from) =>
        slur.Kind == 0
            ? new(SlurKind.Slide, from.String, slur.Fret, from.Left)
            : new(
                slur.Kind == 1 ? SlurKind.HammerOn : SlurKind.PullOff,
                from.String,
                slur.Fret,
                slur.Fret == 0 ? 0 : slur.Left
            );
}
