using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Beside.Words;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests.Beside;

public class TakeWordsTests
{
    private static readonly Meant Small = Meant.Of(SampleBreaks.Small);

    [Fact]
    public void What_is_right_is_said_to_be_right() =>
        Of(_ => { })
            .Whole.Should()
            .Equal($"All {Small.Notes.Length} notes of the break are right.", "The tempo: half note = 80.");

    [Fact]
    public void Each_fault_is_named_by_bar_beat_string_and_fret()
    {
        // Bar 1 of the first time through: its first note, and the hammer-on to fret 4 of string 3.
        var words = Of(player =>
        {
            player.Wrong[2] = Small.Notes[2].Pitch + 1;
            player.Missing.Add(7);
        });
        words.Whole[0].Should().Be($"{Small.Notes.Length - 2} of {Small.Notes.Length} notes are right.");
        words.Whole[^1].Should().Be("Work on bar 1: most went wrong there.");
        words
            .Phrases[0]
            .Should()
            .Be(
                "Phrase 1, first time (bars 1–2): 16 of 18 notes are right. Bar 1, beat 1: string 3 sounds at fret 1, not open. Bar 1, beat 2.25: the hammer-on to fret 4 of string 3 is missing."
            );
    }

    [Fact]
    public void A_take_in_another_key_is_one_remark()
    {
        var meant = Small;
        var played = new TakePlayer(meant, 1).Play((0, 100)).Select(note => note with { Pitch = note.Pitch + 2 });
        var found = BesideBreak.Compare(TakePlayer.AsHeard(played), meant);
        found.Higher.Should().Be(2);
        found.Notes.Should().OnlyContain(note => note.Label == NoteLabel.Ok);
        TakeWords.Of(SampleBreaks.Small, found).Whole[1].Should().StartWith("The whole take sounds 2 semitones higher");
    }

    [Fact]
    public void Who_plays_a_quarter_of_the_notes_wrong_still_follows_the_break()
    {
        var words = Of(player =>
        {
            for (var id = 3; id < Small.Notes.Length; id += 4)
                player.Wrong[id] = Small.Notes[id].Pitch + 1;
        });
        words.Whole[0].Should().EndWith("notes are right.");
        words.Phrases.Should().NotBeEmpty();
    }

    private static TakeWords Of(Action<TakePlayer> mistakes)
    {
        var player = new TakePlayer(Small, 1) { Jitter = 0.003 };
        mistakes(player);
        return TakeWords.Of(SampleBreaks.Small, BesideBreak.Compare(TakePlayer.AsHeard(player.Play((0, 100))), Small));
    }
}
