using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

// What was practised.
public sealed partial class TuneLibrary
{
    /// <summary>Adds what was practised to what is kept of that day and phrase.</summary>
    public Task PractiseAsync(Guid id, KeptPractice more) =>
        Change(async context =>
        {
            if (!await context.Breaks.AnyAsync(row => row.Id == id))
                throw Missing();
            var row = await context.Practice.FindAsync(id, more.Day, more.Phrase);
            if (row is null)
                context.Practice.Add(
                    row = new()
                    {
                        Break = id,
                        Day = more.Day,
                        Phrase = more.Phrase,
                    }
                );
            row.Tempo = Math.Max(row.Tempo, more.Tempo);
            row.Clean += more.Clean;
            row.Spoiled += more.Spoiled;
            await context.SaveChangesAsync();
            return true;
        });

    public Task<IReadOnlyList<KeptPractice>> PracticeAsync(Guid id) =>
        Do<IReadOnlyList<KeptPractice>>(async context =>
            [
                .. (
                    await context
                        .Practice.AsNoTracking()
                        .Where(row => row.Break == id)
                        .OrderBy(row => row.Day)
                        .ThenBy(row => row.Phrase)
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );
}
