using Microsoft.Extensions.DependencyInjection;
using OpenTelemetry;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Trace;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>Traces and figures of requests, sent by OpenTelemetry's protocol to a collector of whoever asked for it.</summary>
internal static class Telemetry
{
    public static void AddTelemetry(this IServiceCollection services, Uri collector) =>
        services
            .AddOpenTelemetry()
            .WithTracing(traces =>
                traces.AddAspNetCoreInstrumentation(requests =>
                    // What stands in an invitation's address lets whoever reads it in.
                    requests.Filter = context =>
                        !context.Request.Path.StartsWithSegments("/invitation", StringComparison.OrdinalIgnoreCase)
                )
            )
            .WithMetrics(figures => figures.AddAspNetCoreInstrumentation())
            .UseOtlpExporter(OtlpExportProtocol.HttpProtobuf, collector);
}
