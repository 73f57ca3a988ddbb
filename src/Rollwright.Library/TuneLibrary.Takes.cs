using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

// Takes: recordings of a break as someone played it.
public sealed partial class TuneLibrary
{
    /// <summary>Keeps a take: its recording first, so that no take is ever without one.</summary>
    /// <param name="played">The break.</param>
    /// <param name="recording">The file's bytes; at most <see cref="KeptTake.MostBytes"/>.</param>
    /// <param name="ending">Of the file's name: letters and digits, such as "wav".</param>
    /// <param name="notes">What was heard in it (JSON); may be empty.</param>
    /// <exception cref="LibraryException">There is no such break, or the recording cannot be taken.</exception>
    public Task<KeptTake> AddTakeAsync(Guid played, ReadOnlyMemory<byte> recording, string ending, string notes) =>
        Change(async context =>
        {
            if (!await context.Breaks.AnyAsync(row => row.Id == played))
                throw Missing();
            if (recording.Length is 0 or > KeptTake.MostBytes)
                throw new LibraryException(
                    Place.Name,
                    $"a recording of {recording.Length / 1_000_000.0:0.0} MB is not kept",
                    $"record something, and at most {KeptTake.MostBytes / 1_000_000} MB"
                );
            var now = clock.GetUtcNow();
            var digest = KeptTake.DigestOf(recording.Span);
            var kept = new KeptTake(Guid.CreateVersion7(now), played, now, digest, KeptTake.PlainEnding(ending), notes);
            await Recordings.PutAsync(context, digest, recording);
            context.Takes.Add(Mapping.Row(kept));
            await context.SaveChangesAsync();
            return kept;
        });

    /// <summary>Those of a break, or all, the newest first.</summary>
    public Task<IReadOnlyList<KeptTake>> TakesAsync(Guid? played = null) =>
        Do<IReadOnlyList<KeptTake>>(async context =>
            [
                .. (
                    await context
                        .Takes.AsNoTracking()
                        .Where(row => played == null || row.Break == played)
                        .OrderByDescending(row => row.At)
                        .ThenByDescending(row => row.Number)
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

    /// <summary>The recording of a take, as it came.</summary>
    /// <exception cref="LibraryException">It is gone, or is not what was kept.</exception>
    public Task<ReadOnlyMemory<byte>> RecordingAsync(KeptTake take)
    {
        ArgumentNullException.ThrowIfNull(take);
        return Do(context => RecordingOf(context, take.Digest));
    }

    /// <summary>Takes it away; its recording with it where no other take has the same.</summary>
    /// <returns>Whether it was there.</returns>
    public async Task<bool> RemoveTakeAsync(Guid id)
    {
        var digest = await Change(async context =>
        {
            if (await context.Takes.SingleOrDefaultAsync(row => row.Id == id) is not { } take)
                return null;
            context.Takes.Remove(take);
            await context.SaveChangesAsync();
            return take.Digest;
        });
        if (digest is null)
            return false;
        // Only when the take is gone for certain, and while nobody else can write.
        return await Change(async context =>
        {
            // Somebody else may have handed in the same recording.
            if (!await context.Takes.IgnoreQueryFilters().AnyAsync(row => row.Digest == digest))
                await Recordings.RemoveAsync(context, digest);
            return true;
        });
    }

    internal async Task<ReadOnlyMemory<byte>> RecordingOf(LibraryContext context, string digest) =>
        await Recordings.GetAsync(context, digest) is not { } bytes ? throw Damaged("the recording of a take is gone")
        : KeptTake.DigestOf(bytes.Span) != digest ? throw Damaged("the recording of a take is not what was kept")
        : bytes;

    private LibraryException Damaged(string what) =>
        new(Place.Name, what, "restore the last backup into a new place; leave what is here as it is");
}
