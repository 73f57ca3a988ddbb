using System.Collections.Concurrent;
using System.Diagnostics.Tracing;

namespace Rollwright.Class.Tests.Fuzzing;

/// <summary>What servers of this process log as an error while it listens, by the event source that every ASP.NET Core server writes to.</summary>
internal sealed class Complaints : EventListener
{
    private const string Source = "Microsoft-Extensions-Logging";

    private readonly ConcurrentQueue<string> heard = new();

    public IReadOnlyCollection<string> Heard => heard;

    protected override void OnEventSourceCreated(EventSource eventSource)
    {
        if (eventSource.Name == Source)
            // 8: messages with their exceptions.
            EnableEvents(eventSource, EventLevel.Error, (EventKeywords)8);
    }

    protected override void OnEventWritten(EventWrittenEventArgs eventData)
    {
        if (eventData.EventName == "MessageJson" && eventData.Payload is { } payload)
            heard.Enqueue(string.Join(' ', payload.Select(part => $"{part}")));
    }
}
