using System.Net;
using System.Net.Sockets;
using System.Runtime.CompilerServices;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>The server without a browser: what it serves, and to whom.</summary>
public class ServerTests
{
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
    [InlineData("/_framework/blazor.web.js", "text/javascript")]
    [InlineData("/assets/workbench.css", "text/css")]
    [InlineData("/assets/player.js", "text/javascript")]
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
