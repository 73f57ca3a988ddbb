using Xunit.Sdk;
using Xunit.v3;

// These tests wait most of their time: for a browser, a server, another program. So classes run beside each other; those that
// listen to sound as it is played, or measure, would starve that way on two cores and run alone (see Alone).
[assembly: Parallelization(Mode = ParallelMode.Collections, MaxThreads = 4)]
