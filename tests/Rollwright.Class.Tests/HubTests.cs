using System.Net;
using System.Net.WebSockets;
using System.Reflection;
using System.Text;
using Rollwright.Class.People;

namespace Rollwright.Class.Tests;

/// <summary>
/// The line between an open page and the server: every call that Blazor's hub takes, tried by nobody, a pupil and a teacher, in the
/// hub's own protocol (SignalR's hub protocol in MessagePack, as ASP.NET Core's repository describes it).
/// </summary>
public class HubTests
{
    // What a browser may call by name: the public methods of the hub that ASP.NET Core itself has.
    private static readonly MethodInfo[] Calls =
    [
        .. Assembly
            .Load("Microsoft.AspNetCore.Components.Server")
            .GetType("Microsoft.AspNetCore.Components.Server.ComponentHub", throwOnError: true)!
            .GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
            .Where(method => method.Name is not ("OnDisconnectedAsync" or "OnConnectedAsync")),
    ];

    [Fact]
    public async Task Nobody_gets_a_line_whichever_way_they_ask_for_one()
    {
        await using var shared = await SharedClass.OpenAsync();
        using var negotiate = new HttpRequestMessage(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1");
        using (var answer = await shared.Nobody.Send(negotiate))
            answer.StatusCode.Should().Be(HttpStatusCode.Unauthorized);
        using var poll = new HttpRequestMessage(HttpMethod.Get, "/_blazor?id=1");
        poll.Headers.Add("Accept", "text/event-stream");
        using (var answer = await shared.Nobody.Send(poll))
            answer.IsSuccessStatusCode.Should().BeFalse();
        using var made = new HttpRequestMessage(HttpMethod.Post, "/_blazor?id=1");
        using (var answer = await shared.Nobody.Send(made))
            answer.StatusCode.Should().Be(HttpStatusCode.Unauthorized);
        var open = () => Line(shared, shared.Nobody);
        (await open.Should().ThrowAsync<WebSocketException>()).WithMessage("*401*");
        using var forged = shared.Nobody;
        forged.Cookies.Add(new Uri(shared.Workbench.Address), new Cookie("rollwright", "CfDJ8made-up"));
        var again = () => Line(shared, forged);
        (await again.Should().ThrowAsync<WebSocketException>()).WithMessage("*401*");
    }

    [Theory]
    [InlineData(Role.Pupil)]
    [InlineData(Role.Teacher)]
    public async Task No_call_reaches_anything_but_a_page_of_one_s_own(Role role)
    {
        await using var shared = await SharedClass.OpenAsync();
        var (guest, _) = await shared.Enter("Ada", role);
        Calls.Length.Should().BeGreaterThan(8, "else the hub is another than this test knows");
        foreach (var call in Calls)
        {
            using var line = await Line(shared, guest);
            await Send(line, Encoding.UTF8.GetBytes("{\"protocol\":\"blazorpack\",\"version\":1}\u001e"));
            (await Receive(line)).Should().Equal([.. "{}\u001e"u8], "the hand was shaken");
            await Send(line, Framed(Invocation(call)));
            var answer = await Receive(line);
            IsRefusal(answer).Should().BeTrue($"{call.Name} by a {role} without a page: {Convert.ToHexString(answer)}");
        }
    }

    private static async Task<ClientWebSocket> Line(SharedClass shared, Guest guest)
    {
        var address = shared.Workbench.Address;
        var socket = new ClientWebSocket { Options = { Cookies = guest.Cookies } };
        await socket.ConnectAsync(
            new($"{address.Replace("http:", "ws:", StringComparison.Ordinal)}/_blazor"),
            CancellationToken.None
        );
        return socket;
    }

    private static Task Send(ClientWebSocket line, byte[] bytes) =>
        line.SendAsync(bytes, WebSocketMessageType.Binary, endOfMessage: true, CancellationToken.None);

    // A line that the server closes has nothing more to say.
    private static async Task<byte[]> Receive(ClientWebSocket line)
    {
        var buffer = new byte[65_536];
        try
        {
            var got = await line.ReceiveAsync(buffer, CancellationToken.None);
            return buffer[..got.Count];
        }
        catch (WebSocketException)
        {
            return [];
        }
    }

    // [1, headers, id, target, arguments, streams], with empty or made-up arguments of the right kinds.
    private static byte[] Invocation(MethodInfo call)
    {
        var bytes = new List<byte> { 0x96, 0x01, 0x80 };
        Text("7");
        Text(call.Name);
        var parameters = call.GetParameters();
        bytes.Add((byte)(0x90 | parameters.Length));
        foreach (var parameter in parameters)
        {
            if (parameter.ParameterType == typeof(string))
                Text(parameter.Name!.Contains("Uri", StringComparison.Ordinal) ? "http://127.0.0.1/" : "made-up");
            else if (parameter.ParameterType == typeof(bool))
                bytes.Add(0xc2);
            else if (parameter.ParameterType == typeof(byte[]))
                bytes.AddRange([0xc4, 0x01, 0x01]);
            else
                bytes.Add(0x01);
        }
        bytes.Add(0x90);
        return [.. bytes];

        void Text(string text)
        {
            bytes.Add((byte)(0xa0 | text.Length));
            bytes.AddRange(Encoding.ASCII.GetBytes(text));
        }
    }

    // The length goes before it in groups of seven bits.
    private static byte[] Framed(byte[] message)
    {
        var framed = new List<byte>();
        for (var left = message.Length; ; left >>= 7)
        {
            framed.Add((byte)((left & 0x7f) | (left > 0x7f ? 0x80 : 0)));
            if (left <= 0x7f)
                break;
        }
        return [.. framed, .. message];
    }

    // A call back to the page that names an error; or the end of the call, [3, headers, id, kind, result], where kind 1 is an
    // error and kind 3 has a result, of which null and false say no.
    private static bool IsRefusal(byte[] answer) =>
        answer switch
        {
            [_, 0x96, 0x01, ..] => Encoding.ASCII.GetString(answer).Contains("JS.Error", StringComparison.Ordinal),
            [_, 0x95, 0x03, 0x80, 0xa1, (byte)'7', 0x01, ..] => true,
            [_, 0x95, 0x03, 0x80, 0xa1, (byte)'7', 0x03, 0xc0 or 0xc2, ..] => true,
            _ => false,
        };
}
