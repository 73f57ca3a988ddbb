using System.Collections.Immutable;
using System.Text.Json;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Captions;

/// <summary>
/// Where the bars of a recording begin, as JSON: <c>{"format": "rollwright bar times", "version": 1, "starts": [0.52, 1.93]}</c>,
/// seconds of the bars in order of play, with an optional <c>"end"</c>. There may be fewer than the break has bars, where the
/// recording ends before it.
/// </summary>
public static class BarTimesJson
{
    public const string Format = "rollwright bar times";

    /// <exception cref="LessonException">It is not such a file, or its times do not fit the break.</exception>
    public static BarTimes Read(string json, Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        try
        {
            using var told = JsonDocument.Parse(json);
            var root = told.RootElement;
            if (
                root.ValueKind != JsonValueKind.Object
                || !root.TryGetProperty("format", out var format)
                || format.ValueKind != JsonValueKind.String
                || format.GetString() != Format
            )
                throw new LessonException($"this is no file of bar times; it begins with {{\"format\": \"{Format}\"");
            if (!root.TryGetProperty("starts", out var starts) || starts.ValueKind != JsonValueKind.Array)
                throw new LessonException(
                    "\"starts\" is missing: a list of seconds, one for each bar in order of play"
                );
            double? end =
                root.TryGetProperty("end", out var last) && last.ValueKind == JsonValueKind.Number
                    ? last.GetDouble()
                    : null;
            return Of([.. starts.EnumerateArray().Select((start, i) => Seconds(start, i))], end, played);
        }
        catch (JsonException fault)
        {
            throw new LessonException(
                $"line {fault.LineNumber + 1}, column {fault.BytePositionInLine + 1}: this is not JSON"
            );
        }
    }

    /// <param name="starts">Seconds of the bars in order of play, ascending.</param>
    public static string Write(IEnumerable<double> starts) =>
        JsonSerializer.Serialize(
            new
            {
                format = Format,
                version = 1,
                starts = starts.Select(start => Math.Round(start, 3)),
            }
        );

    private static double Seconds(JsonElement start, int index) =>
        start.ValueKind == JsonValueKind.Number && start.GetDouble() is >= 0 and <= 86_400 and var seconds
            ? seconds
            : throw new LessonException($"start {index + 1} is no time: give seconds, 0 to 86400");

    private static BarTimes Of(ImmutableArray<double> starts, double? end, Break played)
    {
        var order = played.Order;
        if (starts.IsEmpty)
            throw new LessonException("\"starts\" is empty: mark at least one bar");
        if (starts.Length > order.Length)
            throw new LessonException(
                $"there are {starts.Length} starts and {order.Length} bars as played, repeats taken: take the surplus out"
            );
        var late = Enumerable.Range(1, starts.Length - 1).FirstOrDefault(i => starts[i] <= starts[i - 1]);
        if (late > 0)
            throw new LessonException($"start {late + 1} does not come after start {late}: put them in order of play");
        // The last bar ends where it is said; else where it would at the pace of the one before, or at the break's own.
        var pace =
            starts.Length > 1
                ? (starts[^1] - starts[^2]) / played.Bars[order[starts.Length - 2]].Length.ToDouble()
                : played.Tempo.SecondsPerWhole;
        var close = end ?? starts[^1] + (pace * played.Bars[order[starts.Length - 1]].Length.ToDouble());
        if (close <= starts[^1])
            throw new LessonException("\"end\" does not come after the last start");
        return new([
            .. starts.Select((start, i) => new BarTime(order[i], start, i + 1 < starts.Length ? starts[i + 1] : close)),
        ]);
    }
}
