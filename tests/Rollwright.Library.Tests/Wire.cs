using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Rollwright.Library.Tests;

/// <summary>
/// A wire to a PostgreSQL server that can be cut at the worst moment: the server has done what it was asked to, and its answer
/// never arrives.
/// </summary>
internal sealed class Wire : IDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly int server;

    public Wire(int server)
    {
        this.server = server;
        listener.Start();
        _ = Serve();
    }

    public int Port => ((IPEndPoint)listener.LocalEndpoint).Port;

    /// <summary>Whether the answer to the next COMMIT is lost, and the connection with it.</summary>
    public bool LosesNextCommit { get; set; }

    public void Dispose() => listener.Dispose();

    private async Task Serve()
    {
        try
        {
            while (true)
                _ = Join(await listener.AcceptTcpClientAsync());
        }
        catch (Exception fault) when (fault is SocketException or ObjectDisposedException)
        {
            // The test is over.
        }
    }

    private async Task Join(TcpClient caller)
    {
        using var near = caller;
        using var far = new TcpClient();
        await far.ConnectAsync(IPAddress.Loopback, server);
        var isCut = false;
        var there = Copy(near.GetStream(), far.GetStream(), sent => isCut |= IsLost(sent), () => true);
        var back = Copy(far.GetStream(), near.GetStream(), _ => { }, () => !isCut);
        await Task.WhenAny(there, back);
    }

    private bool IsLost(ReadOnlyMemory<byte> sent)
    {
        if (!LosesNextCommit || !Encoding.ASCII.GetString(sent.Span).Contains("COMMIT\0", StringComparison.Ordinal))
            return false;
        LosesNextCommit = false;
        return true;
    }

    // Ends, and with it the connection, where an answer came that may not pass.
    private static async Task Copy(Stream from, Stream to, Action<ReadOnlyMemory<byte>> see, Func<bool> mayPass)
    {
        try
        {
            var bytes = new byte[65_536];
            for (int count; (count = await from.ReadAsync(bytes)) > 0 && mayPass(); )
            {
                see(bytes.AsMemory(0, count));
                await to.WriteAsync(bytes.AsMemory(0, count));
            }
        }
        catch (Exception fault) when (fault is IOException or ObjectDisposedException)
        {
            // One side hung up.
        }
    }
}
