using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>Takes of breaks by chance, played by a sampled banjo of another program.</summary>
public class SampledTakeTests_Fluidsynth
{
    private const double Part = ChanceBreaks.BarsOfPart;
    private const double All = 4 * Part;

    public static TheoryData<int> Seeds => [1, 2, 3, 4, 5];

    [Fact]
    public void Mistakes_are_found_and_good_notes_are_left_alone()
    {
        var (found, there, said, good, falsely) = (0, 0, 0, 0, 0);
        var off = new List<double>();
        foreach (var seed in Seeds.Select(row => row.Data))
        {
            var played = ChanceBreaks.Make(seed);
            var meant = Meant.Of(played);
            var player = new TakePlayer(meant, seed)
            {
                Speed = 0.8,
                Drift = 0.05,
                Jitter = 0.012,
            };
            var labels = Mistakes.Put(player, meant, seed);
            var sounded = player.Play((0, All));
            var answer = BesideBreak.Compare(Sound(played, meant, sounded), meant);
            answer.Follows.Should().BeTrue();
            var at = sounded
                .Where(note => note.Id is not null)
                .ToDictionary(note => note.Id!.Value, note => note.Onset);
            for (var i = 0; i < labels.Length; i++)
            {
                var (isFault, isSaid) = (labels[i] != NoteLabel.Ok, answer.Notes[i].Label != NoteLabel.Ok);
                there += isFault ? 1 : 0;
                said += isSaid ? 1 : 0;
                found += isFault && isSaid ? 1 : 0;
                good += isFault ? 0 : 1;
                falsely += !isFault && isSaid ? 1 : 0;
                if (!isFault && !isSaid)
                    off.Add(Math.Abs(answer.Notes[i].Onset!.Value - at[i]));
            }
        }
        // The goals of the room: F of 0.95, one false flag in a hundred good notes, onsets within 3 ms.
        (2.0 * found / (there + said))
            .Should()
            .BeGreaterThanOrEqualTo(0.95);
        (100.0 * falsely / good).Should().BeLessThanOrEqualTo(1);
        off.Order().ElementAt(off.Count / 2).Should().BeLessThanOrEqualTo(0.003);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_restart_a_repeat_left_out_and_a_tempo_that_drifts_by_eight_per_cent_are_followed(int seed)
    {
        var played = ChanceBreaks.Make(seed);
        var meant = Meant.Of(played);
        var player = new TakePlayer(meant, seed)
        {
            Speed = 0.75,
            Drift = 0.08,
            Jitter = 0.012,
        };
        // Breaks off in bar 3, begins again at its phrase, and plays the second part once.
        var answer = BesideBreak.Compare(Sound(played, meant, player.Play((0, 3.5), (2, 3 * Part))), meant);
        answer.Follows.Should().BeTrue();
        answer.Stretches.Should().HaveCount(2);
        answer.Stretches[1].FirstBar.Should().Be(2);
        var once = answer.Notes.Where(note => note.Note.At < 3 * Part).ToList();
        once.Count(note => note.Label != NoteLabel.Ok).Should().BeLessThanOrEqualTo(once.Count / 100);
        answer
            .Notes.Where(note => note.Note.At >= 3 * Part)
            .Should()
            .OnlyContain(note => note.Label == NoteLabel.LeftOut);
    }

    [Fact]
    public void Another_tune_is_told_from_this_one()
    {
        var (played, other) = (ChanceBreaks.Make(1), ChanceBreaks.Make(2));
        var meant = Meant.Of(other);
        var sound = Sound(other, meant, new TakePlayer(meant, 2).Play((0, All)));
        BesideBreak.Compare(sound, other).Follows.Should().BeTrue();
        var answer = BesideBreak.Compare(sound, played);
        answer.Follows.Should().BeFalse();
        answer.Found.Should().BeLessThan(0.3);
    }

    private static Samples Sound(Break played, Meant meant, IEnumerable<Sounded> notes)
    {
        var last = 1;
        return SampledBanjo.Sound(
            notes
                .Select(note =>
                {
                    // What is added comes on the string before.
                    if (note.Id is { } id && meant.Notes[id].Name is { } name)
                        last = played.Bars[name.Bar].Strokes[name.Index].String;
                    return (note.Onset, last, note.Pitch);
                })
                .ToList()
        );
    }
}
