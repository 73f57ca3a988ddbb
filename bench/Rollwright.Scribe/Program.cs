using Rollwright.Library;
using Rollwright.Library.Kept;

// Edits a break of a library without end and says each change that was acknowledged: for tests that kill it, and for long runs.
if (args is not [var place, var id])
{
    Console.Error.WriteLine("Say a library and the id of a break in it.");
    return 2;
}
var library = await TuneLibrary.OpenAsync(LibraryPlace.Of(place), TimeProvider.System);
var played = Guid.Parse(id);
var now = (await library.CurrentAsync(played))!.Number;
while (true)
{
    // As long as a break of 32 bars.
    var draft = new Draft(Guid.NewGuid(), $"change {now + 1}", "", new string('x', 20_000));
    if (await library.SaveAsync(played, now, draft) is not SaveOutcome.Saved { Revision: { } revision })
        return 1;
    now = revision.Number;
    Console.WriteLine(now);
    Console.Out.Flush();
}
