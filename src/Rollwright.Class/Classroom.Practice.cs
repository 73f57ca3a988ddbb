using Microsoft.EntityFrameworkCore;
using Rollwright.Class.Lessons;
using Rollwright.Class.People;

namespace Rollwright.Class;

// Practice that is set, and what came of it.
public sealed partial class Classroom
{
    /// <summary>Sets practice for a pupil, or for all. For teachers.</summary>
    /// <param name="by">A teacher.</param>
    /// <param name="lesson">Of which lesson.</param>
    /// <param name="pupil">A member's id; null for all.</param>
    /// <param name="words">What is to be done; not empty.</param>
    /// <param name="tempo">20 to 400 a minute in the unit of the lesson's break, that are aimed at; null for none.</param>
    /// <param name="due">Until when; null for no day.</param>
    /// <exception cref="ClassException">The words or the tempo cannot be so.</exception>
    public Task<Guid> SetPracticeAsync(Person by, Guid lesson, string? pupil, string words, int? tempo, DateOnly? due)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        var plain = Plain(words);
        if (plain.Length == 0)
            throw new ClassException("say what is to be practised");
        if (tempo is < 20 or > 400)
            throw new ClassException("a tempo is 20 to 400 a minute: give a whole number");
        return Change(async context =>
        {
            if (
                !await context.Lessons.AnyAsync(row => row.Id == lesson)
                || (pupil is not null && !await context.Users.AnyAsync(row => row.Id == pupil))
            )
                throw new NotForYouException();
            var now = clock.GetUtcNow();
            var id = Guid.CreateVersion7(now);
            context.Practice.Add(
                new()
                {
                    Id = id,
                    Lesson = lesson,
                    Pupil = pupil,
                    Words = plain,
                    Tempo = tempo,
                    Due = due,
                    By = by.Id,
                    At = now,
                }
            );
            return id;
        });
    }

    /// <summary>Takes practice back that was set. For teachers.</summary>
    public Task UnsetPracticeAsync(Person by, Guid practice)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        return Change(async context =>
            await context.Practice.Where(row => row.Id == practice).ExecuteDeleteAsync() == 1
                ? true
                : throw new NotForYouException()
        );
    }

    /// <summary>For a teacher all that is set; for a pupil what is set for them or for all, of lessons that they see.</summary>
    public Task<IReadOnlyList<SetPractice>> PracticeAsync(Person person) =>
        Ask<IReadOnlyList<SetPractice>>(async context =>
            await context
                .Practice.AsNoTracking()
                .Where(row => person.IsTeacher || row.Pupil == null || row.Pupil == person.Id)
                .Join(
                    context.Lessons.Where(lesson => person.IsTeacher || lesson.WithdrawnAt == null),
                    row => row.Lesson,
                    lesson => lesson.Id,
                    (row, lesson) => new { row, lesson.Title }
                )
                .OrderBy(one => one.row.Due == null)
                .ThenBy(one => one.row.Due)
                .ThenBy(one => one.row.At)
                .Select(one => new SetPractice(
                    one.row.Id,
                    one.row.Lesson,
                    one.Title,
                    context
                        .Users.Where(user => user.Id == one.row.Pupil)
                        .Select(user => user.UserName)
                        .FirstOrDefault(),
                    one.row.Words,
                    one.row.Tempo,
                    one.row.Due,
                    context.Users.Where(user => user.Id == one.row.By).Select(user => user.UserName!).FirstOrDefault()
                        ?? ""
                ))
                .ToListAsync()
        );

    /// <summary>How far a member has come, lesson by lesson of those that they took home. Their own, or for teachers.</summary>
    public async Task<IReadOnlyList<LessonProgress>> ProgressAsync(Person person, string member)
    {
        ArgumentNullException.ThrowIfNull(person);
        if (member != person.Id)
            person.MustTeach();
        var copies = await Ask(async context =>
            await context
                .Copies.AsNoTracking()
                .Where(copy => copy.Member == member)
                .Join(
                    context.Lessons,
                    copy => copy.Lesson,
                    lesson => lesson.Id,
                    (copy, lesson) =>
                        new
                        {
                            copy.Lesson,
                            copy.Break,
                            lesson.Title,
                            Takes = context.Takes.Count(take => take.Lesson == copy.Lesson && take.Pupil == member),
                        }
                )
                .OrderBy(one => one.Title)
                .ToListAsync()
        );
        var theirs = library.For(member);
        var progress = new List<LessonProgress>();
        foreach (var copy in copies)
        {
            var days = await theirs.PracticeAsync(copy.Break);
            progress.Add(
                new(
                    copy.Lesson,
                    copy.Title,
                    days.Select(day => day.Day).Distinct().Count(),
                    days.Count == 0 ? null : days.Max(day => day.Day),
                    days.GroupBy(day => day.Phrase)
                        .OrderBy(phrase => phrase.Key)
                        .ToDictionary(phrase => phrase.Key, phrase => phrase.Max(day => day.Tempo)),
                    days.Sum(day => day.Clean),
                    days.Sum(day => day.Spoiled),
                    copy.Takes
                )
            );
        }
        return progress;
    }
}
