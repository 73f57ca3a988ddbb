// A browser, a server and the judge's many runs at once would starve each other on two cores.
[assembly: Xunit.v3.Parallelization(Mode = Xunit.Sdk.ParallelMode.None)]
