using System.CommandLine;
using Rollwright.Audio.Reading;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Asking;

/// <summary>Which part of a recording is meant: <c>--from 0:12 --until 0:20</c>.</summary>
internal sealed class PartOptions
{
    private readonly Option<string?> from = new("--from")
    {
        Description = "Where the part begins: 12.5, 0:12 or 1:02:03.",
    };
    private readonly Option<string?> until = new("--until") { Description = "Where it ends." };

    public void AddTo(Command command)
    {
        command.Add(from);
        command.Add(until);
    }

    /// <summary>Seconds; the whole recording is from 0 until infinity.</summary>
    /// <exception cref="RequestException">A time cannot be read, or the part is empty.</exception>
    public (double From, double Until) Read(ParseResult parsed)
    {
        var (begins, ends) = (Time(parsed, from) ?? 0, Time(parsed, until) ?? double.PositiveInfinity);
        return begins < ends
            ? (begins, ends)
            : throw new RequestException(
                $"--until {Moment.Text(ends)} is not after --from {Moment.Text(begins)}; give a later time"
            );
    }

    private static double? Time(ParseResult parsed, Option<string?> option) =>
        parsed.GetValue(option) is not { } text ? null
        : Moment.Parse(text) is { } seconds ? seconds
        : throw new RequestException(
            $"{option.Name} {text}: no time; write seconds (12.5) or minutes and seconds (0:12.5)"
        );
}
