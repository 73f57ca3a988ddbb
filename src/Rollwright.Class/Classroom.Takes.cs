using Microsoft.EntityFrameworkCore;
using Rollwright.Class.Lessons;
using Rollwright.Class.People;
using Rollwright.Library;

namespace Rollwright.Class;

// Takes that are handed in.
public sealed partial class Classroom
{
    /// <summary>40 MB: half an hour as a telephone records it.</summary>
    public const int MostTakeBytes = 40_000_000;

    /// <summary>Hands in a take of a lesson that the person sees; it lies in their own library, and teachers may hear it.</summary>
    /// <param name="person">Whose it is.</param>
    /// <param name="lesson">Of which lesson.</param>
    /// <param name="recording">The file's bytes, 1 to <see cref="MostTakeBytes"/>.</param>
    /// <param name="ending">Of the file's name: letters and digits.</param>
    /// <param name="words">What the person says of it; may be empty.</param>
    /// <exception cref="ClassException">There is no sound in it, or too much.</exception>
    public async Task<Guid> HandInAsync(
        Person person,
        Guid lesson,
        ReadOnlyMemory<byte> recording,
        string ending,
        string words
    )
    {
        var plain = Plain(words);
        if (recording.Length is 0 or > MostTakeBytes)
            throw new ClassException($"a take has something in it, and at most {MostTakeBytes / 1_000_000} MB");
        var played = await TakeHomeAsync(person, lesson);
        // First the take, then the line that it was handed in: killed between, a take lies in the pupil's library and no more.
        var take = await LibraryOf(person).AddTakeAsync(played, recording, ending, "");
        return await Change(context =>
        {
            var now = clock.GetUtcNow();
            var id = Guid.CreateVersion7(now);
            context.Takes.Add(
                new()
                {
                    Id = id,
                    Lesson = lesson,
                    Pupil = person.Id,
                    Take = take.Id,
                    Ending = take.Ending,
                    Words = plain,
                    At = now,
                    Answer = "",
                }
            );
            return Task.FromResult(id);
        });
    }

    /// <summary>For a teacher all, for a pupil their own; those that nobody answered first, then the newest.</summary>
    /// <param name="person">Who asks.</param>
    /// <param name="lesson">Of this lesson only; null for all.</param>
    /// <param name="pupil">Of this member only; null for all that the person may hear.</param>
    public Task<IReadOnlyList<HandedIn>> TakesAsync(Person person, Guid? lesson = null, string? pupil = null) =>
        Ask<IReadOnlyList<HandedIn>>(async context =>
            await context
                .Takes.AsNoTracking()
                .Where(row => person.IsTeacher || row.Pupil == person.Id)
                .Where(row => (lesson == null || row.Lesson == lesson) && (pupil == null || row.Pupil == pupil))
                .OrderBy(row => row.AnsweredAt != null)
                .ThenByDescending(row => row.At)
                .Select(row => new HandedIn(
                    row.Id,
                    row.Lesson,
                    context.Lessons.Where(one => one.Id == row.Lesson).Select(one => one.Title).FirstOrDefault() ?? "",
                    context.Users.Where(user => user.Id == row.Pupil).Select(user => user.UserName!).FirstOrDefault()
                        ?? "",
                    row.At,
                    row.Words,
                    row.Answer,
                    context
                        .Users.Where(user => user.Id == row.AnsweredBy)
                        .Select(user => user.UserName)
                        .FirstOrDefault()
                ))
                .ToListAsync()
        );

    /// <summary>The sound of a take: one's own, or for teachers.</summary>
    /// <exception cref="NotForYouException">It is another's, or not there.</exception>
    public async Task<(ReadOnlyMemory<byte> Bytes, string Ending)> SoundAsync(Person person, Guid handedIn)
    {
        var row = await Row(person, handedIn);
        var takes = await library.For(row.Pupil).TakesAsync();
        var take = takes.FirstOrDefault(one => one.Id == row.Take) ?? throw new NotForYouException();
        return (await library.For(row.Pupil).RecordingAsync(take), take.Ending);
    }

    /// <summary>Answers a take. For teachers.</summary>
    public Task AnswerAsync(Person by, Guid handedIn, string words)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        var plain = Plain(words);
        if (plain.Length == 0)
            throw new ClassException("write an answer first");
        return Change(async context =>
        {
            var row =
                await context.Takes.SingleOrDefaultAsync(row => row.Id == handedIn) ?? throw new NotForYouException();
            (row.Answer, row.AnsweredBy, row.AnsweredAt) = (plain, by.Id, clock.GetUtcNow());
            return true;
        });
    }

    /// <summary>Takes one's own take back: nobody hears it any more, and its recording goes with it.</summary>
    public async Task TakeBackAsync(Person person, Guid handedIn)
    {
        var row = await Row(person, handedIn);
        if (row.Pupil != person.Id)
            throw new NotForYouException();
        await Change(context => context.Takes.Where(one => one.Id == handedIn).ExecuteDeleteAsync());
        await LibraryOf(person).RemoveTakeAsync(row.Take);
    }

    private Task<Storage.HandedInRow> Row(Person person, Guid handedIn) =>
        Ask(async context =>
            await context
                .Takes.AsNoTracking()
                .SingleOrDefaultAsync(row => row.Id == handedIn && (person.IsTeacher || row.Pupil == person.Id))
            ?? throw new NotForYouException()
        );
}
