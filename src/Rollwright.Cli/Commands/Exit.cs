using System.CommandLine;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Cli.Files;
using Rollwright.Library;
using Rollwright.Sound;

namespace Rollwright.Cli.Commands;

/// <summary>Exit codes, and the one place where a failure becomes a line on standard error.</summary>
internal static class Exit
{
    public const int Done = 0;

    /// <summary>The answer is no: a check found faults.</summary>
    public const int No = 1;

    /// <summary>The request or a file is wrong.</summary>
    public const int Wrong = 2;

    public static async Task<int> GuardedAsync(RootCommand root, string[] args)
    {
        try
        {
            var parsed = root.Parse(args);
            if (parsed.Errors.Count > 0)
            {
                Say(parsed.Errors[0].Message.TrimEnd('.') + "; see 'rollwright --help'");
                return Wrong;
            }
            return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (Exception fault) when (IsExpected(fault))
        {
            Say(fault.Message);
            return Wrong;
        }
        catch (OperationCanceledException)
        {
            return Wrong;
        }
    }

    /// <summary>Faults of the request, the files or the machine, which have a message for people.</summary>
    public static bool IsExpected(Exception fault) =>
        fault
            is RequestException
                or SoundException
                or LibraryException
                or ClassException
                or NotForYouException
                or IOException
                or UnauthorizedAccessException;

    /// <summary>One line for people; standard output stays for what was asked for.</summary>
    public static void Say(string line) => Console.Error.WriteLine(line.ReplaceLineEndings(" "));
}
