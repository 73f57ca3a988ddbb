using System.Net;
using System.Net.Sockets;
using System.Net.WebSockets;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>The server without a browser: what it serves, and to whom.</summary>
public class ServerTests
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(1);

    [Fact]
    public async Task It_listens_on_the_loopback_address_and_nowhere_else()
    {
        await using var workbench = await Workbench.StartAsync(0);
        var address = new Uri(workbench.Address);
        address.Host.Should().Be("127.0.0.1");
        var others = (await Dns.GetHostAddressesAsync(Dns.GetHostName()))
            .Where(other => other.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(other))
            .ToList();
        foreach (var other in others)
        {
            using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
            var connecting = async () => await socket.ConnectAsync(other, address.Port);
            await connecting.Should().ThrowAsync<SocketException>();
        }
    }

    [Fact]
    public async Task A_page_that_comes_under_a_foreign_name_is_turned_away()
    {
        await using var workbench = await Workbench.StartAsync(0);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Host = "rebound.example";
        using var answer = await client.SendAsync(request);
        answer.StatusCode.Should().Be(HttpStatusCode.BadRequest);
    }

    [Theory]
    [InlineData("http://evil.example", HttpStatusCode.Forbidden)]
    [InlineData("null", HttpStatusCode.Forbidden)]
    [InlineData("http://127.0.0.1:1", HttpStatusCode.Forbidden)]
    [InlineData(null, HttpStatusCode.OK)]
    public async Task A_page_of_another_origin_gets_no_line_to_the_workbench(string? origin, HttpStatusCode status)
    {
        await using var workbench = await Workbench.StartAsync(0);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        using var request = new HttpRequestMessage(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1");
        request.Headers.Add("Origin", origin ?? workbench.Address);
        using var answer = await client.SendAsync(request);
        answer.StatusCode.Should().Be(status);

        using var socket = new ClientWebSocket();
        socket.Options.SetRequestHeader("Origin", origin ?? workbench.Address);
        var open = () =>
            socket.ConnectAsync(
                new Uri($"{workbench.Address.Replace("http:", "ws:", StringComparison.Ordinal)}/_blazor"),
                CancellationToken.None
            );
        if (status == HttpStatusCode.OK)
            await open.Should().NotThrowAsync();
        else
            (await open.Should().ThrowAsync<WebSocketException>()).WithMessage("*403*");
    }

    [Fact]
    public async Task The_page_runs_no_script_but_the_program_s_own_files_and_takes_no_form_without_its_token()
    {
        await using var workbench = await Workbench.StartAsync(0);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        using var answer = await client.GetAsync("/");
        var policy = string.Join("; ", answer.Headers.GetValues("Content-Security-Policy"));
        policy.Should().Contain("default-src 'self';").And.Contain("frame-ancestors 'none'");
        policy.Should().NotContain("script-src").And.NotContain("unsafe-eval");
        answer.Headers.GetValues("X-Content-Type-Options").Should().Equal("nosniff");
        answer.Headers.GetValues("Cross-Origin-Resource-Policy").Should().Equal("same-origin");
        var html = await answer.Content.ReadAsStringAsync();
        Regex.Matches(html, "<script(?! src=)", RegexOptions.None, Soon).Should().BeEmpty();
        Regex.Matches(html, @"\son[a-z]+\s*=", RegexOptions.None, Soon).Should().BeEmpty();

        using var form = new FormUrlEncodedContent([new("_handler", "x")]);
        using var refused = await client.PostAsync("/", form);
        refused.StatusCode.Should().Be(HttpStatusCode.BadRequest);
    }

    [Theory]
    [InlineData("/made/0123456789abcdef/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/made/..%2f..%2fetc/passwd")]
    [InlineData("/assets/..%2f..%2fetc%2fpasswd")]
    [InlineData("/assets/player/..%2f..%2f..%2fetc%2fpasswd")]
    public async Task No_address_leads_to_a_file_of_the_computer(string address)
    {
        await using var workbench = await Workbench.StartAsync(0);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        using var answer = await client.GetAsync(address);
        answer.StatusCode.Should().Be(HttpStatusCode.NotFound);
        (await answer.Content.ReadAsStringAsync()).Should().NotContain("root:");
    }

    [Theory]
    [InlineData("/_framework/blazor.web.js", "text/javascript")]
    [InlineData("/assets/workbench.css", "text/css")]
    [InlineData("/assets/player.js", "text/javascript")]
    [InlineData("/assets/search.js", "text/javascript")]
    [InlineData("/assets/player/controls.js", "text/javascript")]
    [InlineData("/assets/player/worklet.js", "text/javascript")]
    [InlineData("/assets/player/player.css", "text/css")]
    [InlineData("/assets/icon.svg", "image/svg+xml")]
    [InlineData("/assets/serif-regular.ttf", "font/ttf")]
    public async Task What_the_page_needs_travels_inside_the_program(string path, string type)
    {
        await using var workbench = await Workbench.StartAsync(0);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        using var answer = await client.GetAsync(path);
        answer.StatusCode.Should().Be(HttpStatusCode.OK);
        answer.Content.Headers.ContentType!.MediaType.Should().Be(type);
        (await answer.Content.ReadAsByteArrayAsync()).Length.Should().BeGreaterThan(100);
    }

    [Fact]
    public async Task A_break_that_is_no_longer_kept_is_answered_in_words()
    {
        await using var workbench = await Workbench.StartAsync(0);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        using var answer = await client.GetAsync("/made/0123456789abcdef/tune.pdf");
        answer.StatusCode.Should().Be(HttpStatusCode.NotFound);
        (await answer.Content.ReadAsStringAsync()).Should().Contain("make it again");
    }

    [Fact]
    public void A_break_that_a_page_still_holds_stays_on_the_shelf()
    {
        var shelf = new Shelf();
        var open = shelf.Put(new("open", SampleBreaks.Small));
        PutNew(shelf, 1000);
        GC.Collect();
        shelf.TryFind("open", out var found).Should().BeTrue();
        found.Should().BeSameAs(open);
        shelf.Put(new("open", SampleBreaks.Small)).Should().BeSameAs(open);
    }

    [Fact]
    public void Of_breaks_that_nobody_holds_the_one_longest_unasked_for_leaves_first()
    {
        var shelf = new Shelf();
        PutNew(shelf, 64);
        Finds(shelf, "0").Should().BeTrue();
        shelf.Put(new("last", SampleBreaks.Small));
        GC.Collect();
        Finds(shelf, "0").Should().BeTrue();
        Finds(shelf, "1").Should().BeFalse();
        Finds(shelf, "2").Should().BeTrue();
    }

    // Methods of their own, so that no local variable of the test holds what is to be let go.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void PutNew(Shelf shelf, int count)
    {
        for (var i = 0; i < count; i++)
            shelf.Put(new($"{i}", SampleBreaks.Small));
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static bool Finds(Shelf shelf, string id) => shelf.TryFind(id, out _);

    [Theory]
    [InlineData("The Kettle Path", "the-kettle-path")]
    [InlineData("../../etc: 'x'?", "etc-x")]
    [InlineData("***", "break")]
    public void A_title_becomes_a_file_name_that_every_system_takes(string title, string stem) =>
        new Made("1", SampleBreaks.Small with { Title = title }).Stem.Should().Be(stem);
}
