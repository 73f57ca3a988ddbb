using Rollwright.Arranging;
using Rollwright.Lessons;

namespace Rollwright.Cli.Files;

/// <summary>A request or a file that is wrong; the message says where and what to do, in one line.</summary>
public sealed class RequestException(string message) : Exception(message)
{
    /// <summary>Does something with what a file holds; where that is impossible, the message begins with the file's name.</summary>
    /// <exception cref="RequestException">It cannot be done.</exception>
    internal static T Naming<T>(string path, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (Exception fault) when (fault is ArrangeException or LessonException)
        {
            throw new RequestException($"{InputFile.NameOf(path)}: {fault.Message}");
        }
    }
}
