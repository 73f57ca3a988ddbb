using System.Net.Sockets;
using System.Text;

namespace Rollwright.Class.Tests.Fuzzing;

/// <summary>A request as bytes, whatever they are, to a server of this machine, and what comes back.</summary>
internal static class Wire
{
    // A server that has not answered by then is taken for hung; one that answers does so in milliseconds.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>What was said by the server until it closed the line, at most so many bytes and a few more.</summary>
    /// <param name="address">Of the server.</param>
    /// <param name="request">As it is sent.</param>
    /// <param name="isWhole">Whether the server has all that was promised; where not, it is told that nothing more is coming.</param>
    /// <param name="most">Bytes of the answer.</param>
    public static async Task<Reply> Send(Uri address, byte[] request, bool isWhole, int most)
    {
        using var patience = new CancellationTokenSource(Patience);
        using var client = new TcpClient();
        await client.ConnectAsync(address.Host, address.Port, patience.Token);
        var line = client.GetStream();
        var bytes = new List<byte>();
        var buffer = new byte[65_536];
        try
        {
            await line.WriteAsync(request, patience.Token);
            if (!isWhole)
                client.Client.Shutdown(SocketShutdown.Send);
            while (bytes.Count <= most && await line.ReadAsync(buffer, patience.Token) is > 0 and var got)
                bytes.AddRange(buffer.AsSpan(0, got));
            return new([.. bytes], isWhole);
        }
        catch (Exception cut) when (cut is IOException or SocketException)
        {
            // It closed the line without listening to the end.
            return new([.. bytes], false);
        }
    }
}

/// <summary>What a server said.</summary>
/// <param name="Bytes">All of it.</param>
/// <param name="IsDue">It had heard the whole request, and so has to answer.</param>
internal sealed record Reply(byte[] Bytes, bool IsDue)
{
    /// <summary>Of HTTP; 0 where it said nothing.</summary>
    public int Status =>
        Bytes.AsSpan().StartsWith("HTTP/1.1 "u8)
        && Bytes.Length > 12
        && int.TryParse(Encoding.ASCII.GetString(Bytes, 9, 3), out var status)
            ? status
            : 0;
}
