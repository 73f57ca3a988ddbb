using CsCheck;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>Breaks by chance, played with known mistakes as notes, without sound: all of them are found, and no other.</summary>
public class FollowingProperties
{
    private const int Times = 100;
    private static readonly Gen<int> Seeds = Gen.Int[0, 1_000_000];

    // Whole notes of a cut bar, and of the parts AABB.
    private const double Part = ChanceBreaks.BarsOfPart;
    private const double All = 4 * Part;

    [Fact]
    public void Every_mistake_is_found_and_no_other_at_any_tempo() =>
        Seeds.Sample(
            seed =>
            {
                var meant = Meant.Of(ChanceBreaks.Make(seed));
                var player = Some(meant, seed);
                var labels = Mistakes.Put(player, meant, seed);
                var played = player.Play((0, All));
                var found = Compare(meant, played);
                Labels(found).Should().Equal(labels, $"seed {seed}");
                found
                    .Added.Select(note => (note.Onset, note.Pitch))
                    .Should()
                    .Equal(played.Where(note => note.Id is null).Select(note => (note.Onset, note.Pitch)));
                foreach (var (id, pitch) in player.Wrong)
                    found.Notes[id].Instead.Should().Be(pitch);
                found.Stretches.Should().ContainSingle();
                found.Follows.Should().BeTrue();
            },
            iter: Times
        );

    [Fact]
    public void A_restart_at_a_phrase_or_a_bar_is_followed() =>
        Seeds.Sample(
            seed =>
            {
                var (meant, random) = (Meant.Of(ChanceBreaks.Make(seed)), new Random(seed));
                var back = random.Next(2) == 0 ? 2 * random.Next(7) : random.Next(14);
                var at = back + (random.Next(9, 17) / 8.0);
                var found = Compare(meant, Some(meant, seed).Play((0, at), (back, All)));
                Labels(found).Should().AllBeEquivalentTo(NoteLabel.Ok, $"seed {seed}, from {at} to {back}");
                found.Added.Should().BeEmpty();
                found.Stretches.Should().HaveCount(2);
                meant.Bars[found.Stretches[1].FirstBar].Written.Should().Be(meant.Bars[back].Written);
            },
            iter: Times
        );

    [Fact]
    public void A_repeat_left_out_is_no_mistake() =>
        Seeds.Sample(
            seed =>
            {
                var meant = Meant.Of(ChanceBreaks.Make(seed));
                var isFirst = seed % 2 == 0;
                var player = Some(meant, seed);
                // Without a pause: the player goes straight on.
                var played = isFirst
                    ? new TakePlayer(meant, seed)
                    {
                        Speed = player.Speed,
                        Drift = player.Drift,
                        Pause = 0,
                    }.Play((0, Part), (2 * Part, All))
                    : player.Play((0, 3 * Part));
                var found = Compare(meant, played);
                var out_ = found.Notes.Where(note => note.Label == NoteLabel.LeftOut).ToList();
                Labels(found)
                    .Should()
                    .OnlyContain(label => label == NoteLabel.Ok || label == NoteLabel.LeftOut, $"seed {seed}");
                out_.Select(note => note.Note.Name!.Value.Bar)
                    .Distinct()
                    .Should()
                    .Equal(Enumerable.Range(isFirst ? 0 : (int)Part, (int)Part), $"seed {seed}");
                found.Added.Should().BeEmpty();
            },
            iter: Times
        );

    [Fact]
    public void A_fill_between_phrases_is_added_and_costs_nothing_else() =>
        Seeds.Sample(
            seed =>
            {
                var (meant, random) = (Meant.Of(ChanceBreaks.Make(seed)), new Random(seed));
                var player = Some(meant, seed);
                player.Fills[1] = [.. Enumerable.Range(0, random.Next(3, 20)).Select(_ => random.Next(52, 80))];
                var at = 2.0 * random.Next(1, 8);
                var found = Compare(meant, player.Play((0, at), (at, All)));
                // A note of the fill may by chance be one of the notes around it.
                Labels(found)
                    .Count(label => label != NoteLabel.Ok)
                    .Should()
                    .BeLessThanOrEqualTo(0, $"seed {seed} at {at}");
                found.Added.Should().HaveCount(player.Fills[1].Length);
            },
            iter: Times
        );

    [Fact]
    public void How_early_and_late_notes_are_is_told_from_the_tempo_around() =>
        Seeds.Sample(
            seed =>
            {
                var meant = Meant.Of(ChanceBreaks.Make(seed));
                var player = new TakePlayer(meant, seed)
                {
                    Jitter = 0,
                    Drift = 0.08,
                    Speed = Some(meant, seed).Speed,
                };
                var played = player.Play((0, All)).ToArray();
                var late = new Random(seed).Next(8, played.Length - 8);
                var id = played[late].Id!.Value;
                foreach (ref var note in played.AsSpan())
                    if (meant.Notes[note.Id!.Value].At == meant.Notes[id].At)
                        note = note with { Onset = note.Onset + 0.06 };
                var found = Compare(meant, [.. played]);
                // A straight line for a tempo that bends: some milliseconds are its own.
                found.Notes[id].Late.Should().BeApproximately(0.06, 0.008, $"seed {seed}");
                found
                    .Notes.Where(note => note.Note.At != meant.Notes[id].At)
                    .Should()
                    .OnlyContain(note => Math.Abs(note.Late!.Value) < 0.015, $"seed {seed}");
            },
            iter: Times
        );

    private static TakePlayer Some(Meant meant, int seed)
    {
        var random = new Random(seed + 1);
        return new(meant, seed)
        {
            Speed = 0.6 + (0.7 * random.NextDouble()),
            Drift = 0.1 * random.NextDouble(),
            Pause = 0.5 + (2.5 * random.NextDouble()),
        };
    }

    private static Comparison Compare(Meant meant, IEnumerable<Sounded> played) =>
        BesideBreak.Compare(TakePlayer.AsHeard(played), meant);

    private static IEnumerable<NoteLabel> Labels(Comparison found) => found.Notes.Select(note => note.Label);
}
