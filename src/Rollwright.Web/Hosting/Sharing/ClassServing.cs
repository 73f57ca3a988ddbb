using System.Collections.Immutable;
using System.Net;
using Rollwright.Class;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>How a class is served.</summary>
/// <param name="Room">Whose.</param>
public sealed record ClassServing(Classroom Room)
{
    /// <summary>Where pupils find it, such as https://banjo.example: what a proxy serves it as; null for this computer alone.</summary>
    public Uri? Address { get; init; }

    /// <summary>
    /// Proxies, addresses or networks, whose word about who asks and how is taken; nobody else's is. With none, requests come
    /// straight, and from this computer alone.
    /// </summary>
    public ImmutableArray<IPNetwork> Proxies { get; init; } = [];

    /// <summary>The address that is listened on; another than loopback only behind a proxy.</summary>
    public IPAddress Listen { get; init; } = IPAddress.Loopback;

    /// <summary>Whether /health says that the server and its database answer.</summary>
    public bool HasHealth { get; init; }

    /// <summary>Where OpenTelemetry's traces and figures are sent (OTLP); null sends none.</summary>
    public Uri? Telemetry { get; init; }

    /// <summary>
    /// How often one address may try to sign in within a minute. A whole class may come from one address; an account is locked
    /// after five wrong passwords besides.
    /// </summary>
    public int TriesPerMinute { get; init; } = 60;

    /// <summary>Whether it is reached over TLS, so that what a browser keeps is sent over nothing else.</summary>
    public bool IsBehindTls => Address?.Scheme == Uri.UriSchemeHttps;
}
