using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Rollwright.EndToEnd.Soak;

/// <summary>
/// A page of the workbench that is open, without a browser: it fetches the document, opens Blazor's line, answers what the server
/// asks of scripts, says what a person's hands would make them say, and looks at what the server draws.
/// </summary>
internal sealed partial class PageLine : IAsyncDisposable
{
    private readonly Uri address;
    private readonly CookieContainer cookies;
    private readonly Action<ReadOnlyMemory<byte>> drawn;
    private readonly ClientWebSocket socket;
    private readonly SemaphoreSlim sending = new(1);
    private readonly CancellationTokenSource over = new();
    private readonly ConcurrentDictionary<string, TaskCompletionSource<object?>> asked = new(StringComparer.Ordinal);

    // What the page has imported, by the number that it gave back, and the parts of the page that scripts were attached to.
    private readonly ConcurrentDictionary<long, string> modules = new();
    private readonly ConcurrentDictionary<string, long> parts = new(StringComparer.Ordinal);
    private readonly TaskCompletionSource failed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private string circuit = "";
    private Task listening = Task.CompletedTask;
    private Task living = Task.CompletedTask;
    private long names;

    private PageLine(Uri address, CookieContainer cookies, Action<ReadOnlyMemory<byte>> drawn)
    {
        (this.address, this.cookies, this.drawn) = (address, cookies, drawn);
        socket = new() { Options = { Cookies = cookies } };
    }

    /// <summary>Opens the page at an address, as whoever the cookies say.</summary>
    /// <param name="address">Of the page.</param>
    /// <param name="cookies">Of the browser.</param>
    /// <param name="drawn">Given every batch of what is drawn: its own bytes, in which texts stand as they are.</param>
    public static async Task<PageLine> Open(Uri address, CookieContainer cookies, Action<ReadOnlyMemory<byte>> drawn)
    {
        using var handler = new HttpClientHandler { CookieContainer = cookies };
        using var client = new HttpClient(handler);
        var document = await client.GetStringAsync(address);
        var line = new PageLine(address, cookies, drawn);
        await line.Begin(document);
        return line;
    }

    /// <summary>Whether a script of this address was attached to a part of the page.</summary>
    public bool HasPart(string script) => parts.ContainsKey(script);

    /// <summary>Says to the part of the page what the script that is attached to it would say, and waits until it was heard out.</summary>
    /// <param name="script">The address that the page attached.</param>
    /// <param name="method">Of the part.</param>
    /// <param name="arguments">The method's.</param>
    public Task Tell(string script, string method, params object[] arguments)
    {
        var id = Name();
        return Ask(
            id,
            HubMessage.Call(
                null,
                "BeginInvokeDotNetFromJS",
                id,
                null,
                method,
                parts[script],
                JsonSerializer.Serialize(arguments)
            )
        );
    }

    /// <summary>Leaves as a browser does that is closed.</summary>
    public async ValueTask DisposeAsync()
    {
        await over.CancelAsync();
        socket.Abort();
        await Task.WhenAll(listening, living);
        using var handler = new HttpClientHandler { CookieContainer = cookies };
        using var client = new HttpClient(handler);
        using var form = new MultipartFormDataContent { { new StringContent(circuit), "circuitId" } };
        using var answer = await client.PostAsync(new Uri(address, "/_blazor/disconnect"), form);
        socket.Dispose();
        sending.Dispose();
        over.Dispose();
    }

    private async Task Begin(string document)
    {
        var hub = new UriBuilder(new Uri(address, "/_blazor")) { Scheme = "ws" };
        await socket.ConnectAsync(hub.Uri, over.Token);
        await socket.SendAsync(
            Encoding.UTF8.GetBytes("{\"protocol\":\"blazorpack\",\"version\":1}\u001e"),
            WebSocketMessageType.Binary,
            endOfMessage: true,
            over.Token
        );
        (await Frame()).ToArray().Should().Equal([.. "{}\u001e"u8], "the hand was shaken");
        listening = Listen();
        living = Live();
        var state = State().Match(document).Groups["state"].Value;
        var root = new Uri(address, "/").ToString();
        var id = Name();
        circuit = (string)(await Ask(id, HubMessage.Call(id, "StartCircuit", root, address.ToString(), "[]", state)))!;
        var added = Marker()
            .Matches(document)
            .Select(marker => JsonNode.Parse(marker.Groups["marker"].Value)!)
            .Where(marker => marker["descriptor"] is not null)
            .Select(
                (marker, i) =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["type"] = "add",
                            ["ssrComponentId"] = i + 1,
                            ["marker"] = marker,
                        }
            );
        var operations = new JsonObject { ["batchId"] = 1, ["operations"] = new JsonArray([.. added]) };
        await Send(HubMessage.Call(null, "UpdateRootComponents", operations.ToJsonString(), state));
    }

    private async Task Listen()
    {
        try
        {
            while (true)
            {
                foreach (var message in HubMessage.Read(await Frame()))
                    await Hear(message);
            }
        }
        catch (Exception gone)
            when (gone is OperationCanceledException or WebSocketException && over.IsCancellationRequested)
        {
            // This page has left.
        }
        catch (Exception fault)
        {
            failed.TrySetException(fault);
        }
    }

    // A line that says nothing for half a minute is cut.
    private async Task Live()
    {
        try
        {
            while (true)
            {
                await Task.Delay(TimeSpan.FromSeconds(10), over.Token);
                await Send(HubMessage.SignOfLife);
            }
        }
        catch (Exception gone) when (gone is OperationCanceledException or WebSocketException)
        {
            // Whoever listens tells of it.
        }
    }

    private async Task Hear(HubMessage message)
    {
        switch (message)
        {
            case { Target: "JS.RenderBatch", Arguments: [long batch, byte[] bytes] }:
                drawn(bytes);
                await Send(HubMessage.Call(null, "OnRenderCompleted", batch, null));
                break;
            case {
                Target: "JS.BeginInvokeJS",
                Arguments: [long task, string what, string arguments, long kind, long on, ..]
            }:
                await Answer(task, what, arguments, kind, on);
                break;
            case { Target: "JS.EndInvokeDotNet", Arguments: [string id, bool done, ..] }:
                End(id, done ? null : message.Arguments[2], done);
                break;
            case { Target: "JS.Error" } or { Kind: 7 }:
                throw new InvalidOperationException($"the server cut the line: {string.Join(' ', message.Arguments)}");
            case { Kind: 3 }:
                End(message.Id, message.Arguments is [var result, ..] ? result : null, true);
                break;
        }
    }

    private async Task Answer(long task, string what, string arguments, long kind, long on)
    {
        var result = "null";
        // The result is to be something that can be asked again.
        if (kind == 1)
        {
            var name = Interlocked.Increment(ref names);
            result = $"{{\"__jsObjectId\":{name}}}";
            if (what == "import")
                modules[name] = JsonNode.Parse(arguments)![0]!.GetValue<string>();
        }
        if (
            what == "attach"
            && modules.TryGetValue(on, out var script)
            && Part().Match(arguments) is { Success: true } part
        )
            parts[script] = long.Parse(part.Groups["part"].Value, CultureInfo.InvariantCulture);
        if (task != 0)
            await Send(HubMessage.Call(null, "EndInvokeJSFromDotNet", task, true, $"[{task},true,{result}]"));
    }

    private void End(string id, object? result, bool done)
    {
        if (!asked.TryRemove(id, out var waiting))
            return;
        if (done)
            waiting.SetResult(result);
        else
            waiting.SetException(new InvalidOperationException($"the page failed: {result}"));
    }

    private async Task<object?> Ask(string id, byte[] message)
    {
        var waiting = asked[id] = new(TaskCreationOptions.RunContinuationsAsynchronously);
        await Send(message);
        await await Task.WhenAny(waiting.Task, failed.Task);
        return await waiting.Task;
    }

    private string Name() => Interlocked.Increment(ref names).ToString(CultureInfo.InvariantCulture);

    private async Task Send(byte[] message)
    {
        await sending.WaitAsync(over.Token);
        try
        {
            await socket.SendAsync(message, WebSocketMessageType.Binary, endOfMessage: true, over.Token);
        }
        finally
        {
            sending.Release();
        }
    }

    private async Task<ReadOnlyMemory<byte>> Frame()
    {
        using var whole = new MemoryStream();
        var buffer = new byte[65_536];
        while (true)
        {
            var got = await socket.ReceiveAsync(buffer.AsMemory(), over.Token);
            if (got.MessageType == WebSocketMessageType.Close)
                throw new InvalidOperationException("the server closed the line");
            whole.Write(buffer, 0, got.Count);
            if (got.EndOfMessage)
                return whole.ToArray();
        }
    }

    [GeneratedRegex("<!--Blazor:(?<marker>\\{.*?\\})-->", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Marker();

    [GeneratedRegex(
        "<!--Blazor-Server-Component-State:(?<state>[^-]*)-->",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 5000
    )]
    private static partial Regex State();

    [GeneratedRegex("\"__dotNetObject\":(?<part>\\d+)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Part();
}
