using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Rollwright.Web.State;
using Rollwright.Web.State.Hearing;
using Rollwright.Web.State.Sharing;
using Rollwright.Web.State.Teaching;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>What a class adds to the workbench: a door, and a bench of each person's own behind it.</summary>
internal static class SharedWorkbench
{
    private const string Health = "/health";

    public static void AddClass(this WebApplicationBuilder builder, ClassServing serving)
    {
        var services = builder.Services;
        services.AddSingleton(serving);
        services.AddSingleton(serving.Room);
        services.AddSignIn(serving);
        services.AddScoped<CircuitHandler, MemberCircuit>();
        // One person's pages are few, and there are many people.
        AddOwn(services, () => new Shelf(most: 8));
        AddOwn(services, () => new LessonShelf());
        // A recording is large; who sends a second before the page took the first has it alone.
        AddOwn(services, () => new TakeShelf(most: 1));
        services.AddRateLimiter(limits =>
        {
            limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limits.OnRejected = async (rejected, stop) =>
                await rejected.HttpContext.Response.WriteAsync("Too many tries: wait a minute.", stop);
            limits.AddPolicy(
                DoorEndpoints.Limit,
                context =>
                    RateLimitPartition.GetFixedWindowLimiter(
                        context.Connection.RemoteIpAddress?.ToString() ?? "",
                        _ => new() { PermitLimit = serving.TriesPerMinute, Window = TimeSpan.FromMinutes(1) }
                    )
            );
        });
        services.Configure<ForwardedHeadersOptions>(forwarded =>
        {
            forwarded.ForwardedHeaders =
                ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
            forwarded.KnownProxies.Clear();
            forwarded.KnownIPNetworks.Clear();
            foreach (var proxy in serving.Proxies)
                forwarded.KnownIPNetworks.Add(proxy);
            forwarded.ForwardLimit = serving.Proxies.Length;
            if (serving.Address is { } address)
                forwarded.AllowedHosts = [address.Host];
        });
        // That the keys lie in the database as they are is said in docs/class.md, and is no news at every start.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        if (serving.Telemetry is { } collector)
            services.AddTelemetry(collector);
    }

    /// <summary>Before everything that asks whose name a request comes under.</summary>
    public static void UseProxies(this WebApplication app, ClassServing serving)
    {
        if (!serving.Proxies.IsEmpty)
            app.UseForwardedHeaders();
        if (!serving.IsBehindTls)
            return;
        app.UseHsts();
        app.Use((context, next) => IsFit(context.Request) ? next(context) : Lead(context, serving.Address!));
    }

    // A look at the server's health carries nothing, and may come from a balancer in plain.
    private static bool IsFit(HttpRequest request) => request.IsHttps || request.Path == Health;

    // Nothing is asked or answered in plain but the way to the other door.
    private static Task Lead(HttpContext context, Uri address)
    {
        if (HttpMethods.IsGet(context.Request.Method))
            context.Response.Redirect(new Uri(address, context.Request.Path).ToString());
        else
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return Task.CompletedTask;
    }

    /// <summary>After what every request passes, before what is asked for.</summary>
    public static void UseDoor(this WebApplication app)
    {
        app.UseRouting();
        app.UseRateLimiter();
        app.UseAuthentication();
        app.UseAuthorization();
        app.UseMiddleware<Refusals>();
    }

    public static void MapClassroom(this WebApplication app, ClassServing serving)
    {
        app.MapDoor();
        app.MapClass();
        app.MapHandedIn();
        if (serving.HasHealth)
            app.MapGet(Health, async (Rollwright.Class.Classroom room) => await room.AnswersAsync() ? "well" : "")
                .AllowAnonymous();
    }

    private static void AddOwn<T>(IServiceCollection services, Func<T> make)
        where T : class
    {
        services.AddSingleton(new ForEach<T>(make));
        services.AddScoped(provider =>
            provider.GetRequiredService<ForEach<T>>().Of(provider.GetRequiredService<Visit>().Someone.Id)
        );
    }
}
