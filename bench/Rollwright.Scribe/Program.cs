using Rollwright.Arranging;
using Rollwright.Arranging.Locks;
using Rollwright.Library;
using Rollwright.Web.State;

// Takes a kept break up on a bench of its own, as a page of the workbench does, changes it without end by hand, back and on, and
// says the name of each break that the page would say is kept: for tests that kill it, and for long runs.
if (args is not [var place, var id, var seed])
{
    Console.Error.WriteLine("Say a library, the id of a break in it, and a number to draw changes by.");
    return 2;
}
var library = await TuneLibrary.OpenAsync(LibraryPlace.Of(place), TimeProvider.System);
var bench = new Bench(new(), new(library));
using var news = new SemaphoreSlim(0);
bench.Keeping.Changed += (_, _) => news.Release();
await bench.Resume(Guid.Parse(id));
var random = new Random(int.Parse(seed));
while (bench is { Turns: { } turns, Now: { } now })
{
    var draw = random.Next(4);
    if (draw == 0 && turns.HasBefore)
        bench.Go(turns.At - 1);
    else if (draw == 1 && turns.HasAfter)
        bench.Go(turns.At + 1);
    else
        await bench.Make(Change(now.Arrangement));
    while (bench.Keeping.State == KeepState.Keeping)
        await news.WaitAsync();
    if (bench.Keeping.State != KeepState.Kept)
        return Refused(bench.Keeping.Why);
    // What hands cannot do leaves the break as it was: nothing new to say.
    if (bench.Now != now)
        Console.WriteLine(bench.Now!.Made.Id);
}
return Refused("there is nothing on the bench");

Edit Change(Arrangement made)
{
    var step = random.Next(made.Grid.Steps.Length);
    return random.Next(3) == 0 ? Edit.Of(new RestLock(step)) : Edit.Fret(step, random.Next(1, 4), 0)!;
}

static int Refused(string why)
{
    Console.Error.WriteLine(why);
    return 1;
}
