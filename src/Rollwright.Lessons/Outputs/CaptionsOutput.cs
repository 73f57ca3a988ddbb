using System.Text;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Outputs;

/// <summary>Captions, what the hands do in each phrase while it is played, and the phrases as chapters.</summary>
internal static class CaptionsOutput
{
    public static IEnumerable<LessonFile> Make(Lesson lesson)
    {
        var played = lesson.Plan.Played;
        var phrases = PhraseTime.Of(played, lesson.Times);
        var note = $"{lesson.Plan.Tune.Title}\n{lesson.Plan.Tune.Rights.Words}";
        // Each told by itself: a viewer has not read what was said of an earlier bar.
        var words = PhraseWords.EachOf(played).ToDictionary(one => one.Number);
        // What a person wrote of a phrase holds for those that are like it, and stays whole.
        var own = lesson
            .Edits.Over(played, [.. words.Values])
            .Where(one => one.Edited is not null)
            .ToDictionary(one => one.Words.Number, one => one.Edited!.Text);
        yield return File(
            "captions.vtt",
            note,
            phrases.SelectMany(time =>
                own.TryGetValue(time.Phrase.Like, out var text)
                    ? CaptionPace.Usual.Cues(text, time.From, time.To)
                    : PhraseCues.Of(time, words[time.Phrase.Number], CaptionPace.Usual)
            )
        );
        yield return File(
            "chapters.vtt",
            note,
            phrases.Select(time => new Cue(
                time.From,
                time.To,
                $"{time.Part}{(time.Pass > 1 ? $", time {time.Pass}" : "")}: phrase {time.Phrase.Number}"
            ))
        );
    }

    private static LessonFile File(string path, string note, IEnumerable<Cue> cues) =>
        new(path, Encoding.UTF8.GetBytes(WebVtt.Write(note, cues)));
}
