using System.Collections.Immutable;
using System.CommandLine;
using System.Net;
using Rollwright.Class;
using Rollwright.Cli.Files;
using Rollwright.Library;
using Rollwright.Web.Hosting.Sharing;

namespace Rollwright.Cli.Commands.Class;

/// <summary>What <c>rollwright serve --class</c> is asked with.</summary>
internal sealed class ClassOptions
{
    private readonly Option<bool> isClass = new("--class")
    {
        Description = "For a class, with accounts; needs a PostgreSQL database (docs/class.md).",
    };

    private readonly Option<string?> at = new("--at")
    {
        Description = "Where the class finds it, such as https://banjo.example; with --class and --proxy.",
    };

    private readonly Option<string[]> proxies = new("--proxy")
    {
        Description =
            "A reverse proxy, address or network (10.0.0.0/8), whose word about who asks is taken; may be said again.",
    };

    private readonly Option<IPAddress> listen = new("--listen")
    {
        Description = "The address to listen on; another than 127.0.0.1 needs --proxy.",
        DefaultValueFactory = _ => IPAddress.Loopback,
        CustomParser = parsed =>
        {
            if (IPAddress.TryParse(parsed.Tokens[0].Value, out var address))
                return address;
            parsed.AddError($"--listen {parsed.Tokens[0].Value}: not an address such as 0.0.0.0");
            return null;
        },
    };

    private readonly Option<bool> health = new("--health")
    {
        Description = "With --class: /health says whether the server and its database answer.",
    };

    private readonly Option<string?> telemetry = new("--telemetry")
    {
        Description = "With --class: the OpenTelemetry collector that traces and figures are sent to (OTLP over HTTP).",
    };

    public void AddTo(Command command)
    {
        command.Options.Add(isClass);
        command.Options.Add(at);
        command.Options.Add(proxies);
        command.Options.Add(listen);
        command.Options.Add(health);
        command.Options.Add(telemetry);
    }

    /// <summary>Null where it is not for a class.</summary>
    /// <exception cref="RequestException">The options do not go together.</exception>
    public async Task<ClassServing?> ReadAsync(ParseResult parsed, TuneLibrary library)
    {
        if (!parsed.GetValue(isClass))
        {
            foreach (var option in new Option[] { at, proxies, listen, health, telemetry })
            {
                if (parsed.GetResult(option) is { Implicit: false })
                    throw new RequestException($"{option.Name}: that is for a class; say --class too");
            }
            return null;
        }
        var known = (parsed.GetValue(proxies) ?? []).Select(Network).ToImmutableArray();
        var address = parsed.GetValue(at) is { } said ? Web("--at", said) : null;
        if (address is not null && address.Scheme != Uri.UriSchemeHttps)
            throw new RequestException($"--at {address}: a class is served over TLS; say https://…");
        if (known.IsEmpty != address is null)
            throw new RequestException("--at and --proxy go together: the address is the one that the proxy serves");
        var listened = parsed.GetRequiredValue(listen);
        if (known.IsEmpty && !IPAddress.IsLoopback(listened))
            throw new RequestException(
                $"--listen {listened}: passwords would go over the network as plain text; put a reverse proxy with TLS before it and say --at and --proxy"
            );
        return new(await Classroom.OpenAsync(library, TimeProvider.System))
        {
            Address = address,
            Proxies = known,
            Listen = listened,
            HasHealth = parsed.GetValue(health),
            Telemetry = parsed.GetValue(telemetry) is { } collector ? Web("--telemetry", collector) : null,
        };
    }

    /// <exception cref="RequestException">It is no address of the web.</exception>
    public static Uri Web(string option, string said) =>
        Uri.TryCreate(said, UriKind.Absolute, out var address)
        && (address.Scheme == Uri.UriSchemeHttps || address.Scheme == Uri.UriSchemeHttp)
            ? address
            : throw new RequestException($"{option} {said}: not an address such as https://banjo.example");

    private static IPNetwork Network(string said) =>
        IPNetwork.TryParse(said, out var network) ? network
        : IPAddress.TryParse(said, out var one) ? new(one, one.GetAddressBytes().Length * 8)
        : throw new RequestException($"--proxy {said}: neither an address nor a network such as 10.0.0.0/8");
}
