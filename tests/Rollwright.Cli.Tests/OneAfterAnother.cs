using Xunit.Sdk;
using Xunit.v3;

// The program runs in this process (see Warm), and a process has one working folder and one standard output.
[assembly: Parallelization(Mode = ParallelMode.None)]
