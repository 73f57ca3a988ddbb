using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Practice;
using Rollwright.Library;

namespace Rollwright.Web.State;

/// <summary>Keeps practice in the library with the break on the bench; while that cannot be, as long as the page is open.</summary>
public sealed class KeptLog(Bench bench, TuneLibrary library) : IPracticeLog
{
    private readonly VisitLog visit = new();

    public string Words => "It is kept with the break.";

    public async Task<ImmutableArray<PracticeRecord>> ReadAsync(Break played)
    {
        var here = await visit.ReadAsync(played);
        if (bench.Keeping.BreakId is not { } id)
            return here;
        try
        {
            var kept = await library.PracticeAsync(id);
            return
            [
                .. kept.Select(day => new PracticeRecord(day.Day, day.Phrase, day.Tempo, day.Clean, day.Spoiled)),
                .. here,
            ];
        }
        catch (LibraryException)
        {
            // The line about keeping says what is wrong; practice goes on with what is known here.
            return here;
        }
    }

    public async Task AddAsync(Break played, PracticeRecord more)
    {
        ArgumentNullException.ThrowIfNull(more);
        try
        {
            if (bench.Keeping.BreakId is { } id)
            {
                await library.PractiseAsync(id, new(more.Day, more.Phrase, more.Tempo, more.Clean, more.Spoiled));
                return;
            }
        }
        catch (LibraryException)
        {
            // Kept for the visit instead: see above.
        }
        await visit.AddAsync(played, more);
    }
}
