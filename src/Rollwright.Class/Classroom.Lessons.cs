using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Rollwright.Class.Lessons;
using Rollwright.Class.People;
using Rollwright.Class.Storage;
using Rollwright.Library.Kept;

namespace Rollwright.Class;

// Lessons that are published.
public sealed partial class Classroom
{
    private const int MostWords = 4_000;

    /// <summary>
    /// Publishes the lesson of a break of the teacher's own, as the break is kept now; where it is published already, anew.
    /// </summary>
    /// <param name="by">A teacher.</param>
    /// <param name="played">The break, in the teacher's library.</param>
    /// <param name="about">Key, tuning and the like, in a line.</param>
    /// <param name="documents">What pupils are given, by different names.</param>
    public async Task<Guid> PublishAsync(Person by, Guid played, string about, IReadOnlyList<LessonDocument> documents)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        var theirs = LibraryOf(by);
        if (
            await theirs.BreakAsync(played) is not { } kept
            || await theirs.TuneAsync(kept.Tune) is not { } tune
            || await theirs.CurrentAsync(played) is not { } revision
        )
            throw new NotForYouException();
        return await Change(async context =>
        {
            var now = clock.GetUtcNow();
            var row = await context.Lessons.SingleOrDefaultAsync(row => row.Source == played);
            if (row is null)
                context.Lessons.Add(row = new() { Id = Guid.CreateVersion7(now), Source = played });
            (row.Title, row.About, row.By, row.At, row.WithdrawnAt) = (kept.Title, about, by.Id, now, null);
            (row.Tune, row.Wishes, row.Break) = (JsonSerializer.Serialize(tune), revision.Wishes, revision.Break);
            await context.Documents.Where(document => document.Lesson == row.Id).ExecuteDeleteAsync();
            context.Documents.AddRange(
                documents.Select(document => new DocumentRow
                {
                    Lesson = row.Id,
                    Name = document.Name,
                    FileName = document.FileName,
                    Type = document.Type,
                    Bytes = document.Bytes.ToArray(),
                })
            );
            return row.Id;
        });
    }

    /// <summary>Pupils see it no longer, or again; what they made of it is theirs. For teachers.</summary>
    public Task WithdrawAsync(Person by, Guid lesson, bool isWithdrawn)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        return Change(async context =>
        {
            var row =
                await context.Lessons.SingleOrDefaultAsync(row => row.Id == lesson) ?? throw new NotForYouException();
            row.WithdrawnAt = isWithdrawn ? clock.GetUtcNow() : null;
            return true;
        });
    }

    /// <summary>What the person sees, the newest first.</summary>
    public Task<IReadOnlyList<PublishedLesson>> LessonsAsync(Person person) =>
        Ask<IReadOnlyList<PublishedLesson>>(async context => await Lines(context, person).ToListAsync());

    /// <exception cref="NotForYouException">There is none that this person sees.</exception>
    public Task<PublishedLesson> LessonAsync(Person person, Guid lesson) =>
        Ask(async context =>
            await Lines(context, person, lesson).SingleOrDefaultAsync() ?? throw new NotForYouException()
        );

    /// <summary>The documents of a lesson: name and file name, without what is in them.</summary>
    public async Task<IReadOnlyList<(string Name, string FileName)>> DocumentsAsync(Person person, Guid lesson)
    {
        await LessonAsync(person, lesson);
        return await Ask<IReadOnlyList<(string, string)>>(async context =>
            [
                .. (
                    await context
                        .Documents.Where(row => row.Lesson == lesson)
                        .OrderBy(row => row.Name)
                        .Select(row => new { row.Name, row.FileName })
                        .ToListAsync()
                ).Select(row => (row.Name, row.FileName)),
            ]
        );
    }

    /// <exception cref="NotForYouException">There is none that this person sees.</exception>
    public async Task<LessonDocument> DocumentAsync(Person person, Guid lesson, string name)
    {
        await LessonAsync(person, lesson);
        return await Ask(async context =>
            await context.Documents.AsNoTracking().SingleOrDefaultAsync(row => row.Lesson == lesson && row.Name == name)
                is { } row
                ? new LessonDocument(row.Name, row.FileName, row.Type, row.Bytes)
                : throw new NotForYouException()
        );
    }

    /// <summary>
    /// The person's own break of a lesson: they practise it, and may change it. It is made where it is not there, and is the same
    /// one every time after.
    /// </summary>
    public async Task<Guid> TakeHomeAsync(Person person, Guid lesson)
    {
        await LessonAsync(person, lesson);
        var theirs = LibraryOf(person);
        return await Change(async context =>
        {
            // One at a time for this lesson, also on two servers: two of them would be two breaks.
            var row = await context
                .Lessons.FromSql($"""SELECT * FROM class."Lessons" WHERE "Id" = {lesson} FOR UPDATE""")
                .SingleAsync();
            var copy = await context.Copies.SingleOrDefaultAsync(one =>
                one.Lesson == lesson && one.Member == person.Id
            );
            if (copy is not null && await theirs.BreakAsync(copy.Break) is not null)
                return copy.Break;
            if (copy is null)
                context.Copies.Add(copy = new() { Lesson = lesson, Member = person.Id });
            var now = clock.GetUtcNow();
            var tune = JsonSerializer.Deserialize<KeptTune>(row.Tune)!;
            var known = (await theirs.WithFingerprintsAsync([tune.Fingerprint])).FirstOrDefault(one =>
                one.Key == tune.Key
            );
            if (known is null)
            {
                known = tune with { Id = Guid.CreateVersion7(now), AddedAt = now, Tags = [] };
                await theirs.AddAsync([known]);
            }
            // A lick of the teacher's own is in no other's bank, and without it the break would come back as another.
            await theirs.CopyLicksAsync(library.For(row.By), LicksIn(row.Wishes));
            var first = new Draft(Guid.CreateVersion7(now), "from the class", row.Wishes, row.Break);
            copy.Break = (await theirs.BeginAsync(known.Id, row.Title, first)).Id;
            return copy.Break;
        });
    }

    private static IQueryable<PublishedLesson> Lines(ClassContext context, Person person, Guid? lesson = null)
    {
        ArgumentNullException.ThrowIfNull(person);
        return context
            .Lessons.AsNoTracking()
            .Where(row => person.IsTeacher || row.WithdrawnAt == null)
            .Where(row => lesson == null || row.Id == lesson)
            .OrderByDescending(row => row.At)
            .Select(row => new PublishedLesson(
                row.Id,
                row.Title,
                row.About,
                context.Users.Where(user => user.Id == row.By).Select(user => user.UserName!).FirstOrDefault() ?? "",
                row.At,
                row.WithdrawnAt != null
            ));
    }

    // Locks stand in the wishes as lists of texts: "12 lick NAME".
    private static HashSet<string> LicksIn(string wishes)
    {
        using var read = JsonDocument.Parse(wishes.Length > 0 ? wishes : "{}");
        return
        [
            .. read
                .RootElement.EnumerateObject()
                .Where(property => property.Value.ValueKind == JsonValueKind.Array)
                .SelectMany(property => property.Value.EnumerateArray())
                .Select(text => text.ToString().Split(' ', 3))
                .Where(parts => parts is [_, "lick", _])
                .Select(parts => parts[2]),
        ];
    }

    private static string Plain(string? words)
    {
        var plain = (words ?? "").Trim();
        return plain.Length <= MostWords
            ? plain
            : throw new ClassException($"say it in at most {MostWords} characters");
    }
}
