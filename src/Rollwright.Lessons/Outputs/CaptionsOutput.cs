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
        var words = phrases
            .Select(time => time.Phrase.Like)
            .Distinct()
            .ToDictionary(number => number, number => WordsOf(lesson, number));
        yield return File(
            "captions.vtt",
            note,
            phrases.Select(time => new Cue(time.From, time.To, words[time.Phrase.Like]))
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

    // Told by itself: a viewer has not read what was said of an earlier bar.
    private static string WordsOf(Lesson lesson, int phrase) =>
        lesson.Edits.Over(lesson.Plan.Played, PhraseWords.Of(lesson.Plan.Played, [phrase]))[0].In(WordForm.Short);

    private static LessonFile File(string path, string note, IEnumerable<Cue> cues) =>
        new(path, Encoding.UTF8.GetBytes(WebVtt.Write(note, cues)));
}
