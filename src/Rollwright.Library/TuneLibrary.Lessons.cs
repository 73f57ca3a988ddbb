using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

// Lessons of breaks.
public sealed partial class TuneLibrary
{
    /// <summary>Keeps a lesson: a new one, or another state of one that is kept.</summary>
    /// <exception cref="LibraryException">There is no such break, or the library cannot take it now.</exception>
    public Task<KeptLesson> KeepLessonAsync(Guid id, Guid played, string title, string edits) =>
        Change(async context =>
        {
            if (!await context.Breaks.AnyAsync(row => row.Id == played))
                throw Missing();
            var kept = new KeptLesson(id, played, title, edits, clock.GetUtcNow());
            if (await context.Lessons.SingleOrDefaultAsync(row => row.Id == id) is { } row)
                (row.Break, row.Title, row.Edits, row.ChangedAt) = (played, title, edits, kept.ChangedAt);
            else
                context.Lessons.Add(Mapping.Row(kept));
            await context.SaveChangesAsync();
            return kept;
        });

    /// <summary>Those of a break, or all, the last changed first.</summary>
    public Task<IReadOnlyList<KeptLesson>> LessonsAsync(Guid? played = null) =>
        Do<IReadOnlyList<KeptLesson>>(async context =>
            [
                .. (
                    await context
                        .Lessons.AsNoTracking()
                        .Where(row => played == null || row.Break == played)
                        .OrderByDescending(row => row.ChangedAt)
                        .ThenByDescending(row => row.Number)
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

    /// <returns>Whether it was there.</returns>
    public Task<bool> RemoveLessonAsync(Guid id) =>
        Change(async context => await context.Lessons.Where(row => row.Id == id).ExecuteDeleteAsync() > 0);
}
