// A browser, a server and the judge's many runs at once would starve each other on two cores.
[assembly: CollectionBehavior(DisableTestParallelization = true)]
