using System.Reflection;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>
/// Runs the program in the process of the tests, by the entry point that the runtime calls. A process of its own compiles everything
/// anew, which takes longer than most of what is asked of it. What concerns the process keeps one of its own
/// (<see cref="Workplace.RunAlone"/>): bytes on standard input and output ("-" for a file, or no -o), a terminal, being killed, and
/// once for each command that it starts, ends with its exit code and says what it has to say.
/// </summary>
internal static class Warm
{
    private static readonly MethodInfo Program = Assembly.Load("rollwright").EntryPoint!;

    /// <summary>
    /// The streams, the folder and the environment belong to the whole process, so the tests of this assembly run one after another
    /// (see OneAfterAnother). A fault that nobody expected comes out of here and fails the test with its stack.
    /// </summary>
    public static (int Code, string Out, string Err) Run(this Workplace place, params IEnumerable<string> arguments)
    {
        // Whoever sits at a terminal is shown how far a command is, which no test here asks for.
        if (!Console.IsErrorRedirected)
            return place.RunAlone(arguments);
        var (usualIn, usualOut, usualError) = (Console.In, Console.Out, Console.Error);
        var usualFolder = Directory.GetCurrentDirectory();
        var usualLibrary = Environment.GetEnvironmentVariable(Workplace.LibraryVariable);
        using var output = new StringWriter();
        using var error = new StringWriter();
        try
        {
            Console.SetIn(TextReader.Null);
            Console.SetOut(output);
            Console.SetError(error);
            Directory.SetCurrentDirectory(place.Folder);
            Environment.SetEnvironmentVariable(Workplace.LibraryVariable, place.Library);
            // On a thread of the pool, as after the first await of a program: the runner's own would wait for itself.
            var code = Task.Run(() => Code([.. arguments])).GetAwaiter().GetResult();
            return (code, output.ToString(), error.ToString());
        }
        finally
        {
            Environment.SetEnvironmentVariable(Workplace.LibraryVariable, usualLibrary);
            Directory.SetCurrentDirectory(usualFolder);
            Console.SetIn(usualIn);
            Console.SetOut(usualOut);
            Console.SetError(usualError);
        }
    }

    private static int Code(string[] arguments) =>
        (int)Program.Invoke(null, BindingFlags.DoNotWrapExceptions, null, [arguments], null)!;
}
