using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Storage;

namespace Rollwright.Library.Kept;

/// <summary>Names of the licks that someone does not want to be offered. People who share a library have a list each.</summary>
public static class SetAsideLicks
{
    /// <summary>In order of the alphabet.</summary>
    public static Task<IReadOnlyList<string>> SetAsideLicksAsync(this TuneLibrary library, string who) =>
        library.Do<IReadOnlyList<string>>(async context =>
            [
                .. (await context.SetAsideLicks.AsNoTracking().Where(row => row.Who == who).ToListAsync())
                    .Select(row => row.Lick)
                    .Order(StringComparer.Ordinal),
            ]
        );

    /// <summary>A second time changes nothing.</summary>
    public static Task SetLickAsideAsync(this TuneLibrary library, string who, string lick) =>
        library.Change(async context =>
        {
            if (!await context.SetAsideLicks.AnyAsync(row => row.Who == who && row.Lick == lick))
                context.SetAsideLicks.Add(new() { Who = who, Lick = lick });
            return await context.SaveChangesAsync();
        });

    /// <summary>All of someone's licks are offered again.</summary>
    public static Task BringLicksBackAsync(this TuneLibrary library, string who) =>
        library.Change(context => context.SetAsideLicks.Where(row => row.Who == who).ExecuteDeleteAsync());
}
