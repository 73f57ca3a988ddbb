using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Rollwright.Class.Tests;

/// <summary>Stands where a collector of OpenTelemetry would, and keeps what it is sent.</summary>
internal sealed class Collector : IDisposable
{
    private readonly HttpListener listener = new();
    private readonly ConcurrentQueue<string> bodies = new();

    public Collector()
    {
        using (var free = new TcpListener(IPAddress.Loopback, 0))
        {
            free.Start();
            Address = new($"http://127.0.0.1:{((IPEndPoint)free.LocalEndpoint).Port}/");
        }
        listener.Prefixes.Add(Address.ToString());
        listener.Start();
        _ = Task.Run(Listen);
    }

    public Uri Address { get; }

    /// <summary>All that was sent, once these words are in it.</summary>
    public async Task<string> Heard(string words)
    {
        for (var left = 600; left > 0; left--)
        {
            var all = string.Concat(bodies);
            if (all.Contains(words, StringComparison.Ordinal))
                return all;
            await Task.Delay(50);
        }
        throw new TimeoutException($"nothing with '{words}' was sent");
    }

    public void Dispose() => listener.Close();

    private async Task Listen()
    {
        try
        {
            while (true)
            {
                var context = await listener.GetContextAsync();
                using var memory = new MemoryStream();
                await context.Request.InputStream.CopyToAsync(memory);
                bodies.Enqueue(Encoding.Latin1.GetString(memory.ToArray()));
                context.Response.Close();
            }
        }
        catch (Exception over) when (over is HttpListenerException or ObjectDisposedException)
        {
            // It was closed.
        }
    }
}
