namespace Rollwright.Cli.Files;

/// <summary>A request or a file that is wrong; the message says where and what to do, in one line.</summary>
public sealed class RequestException(string message) : Exception(message);
