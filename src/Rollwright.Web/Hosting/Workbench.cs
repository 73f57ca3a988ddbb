using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Rollwright.Library;
using Rollwright.Web.Hosting.Sharing;
using Rollwright.Web.Pages;
using Rollwright.Web.State;
using Rollwright.Web.State.Hearing;
using Rollwright.Web.State.Jobs;
using Rollwright.Web.State.Licks;
using Rollwright.Web.State.Sharing;
using Rollwright.Web.State.Teaching;

namespace Rollwright.Web.Hosting;

/// <summary>The workbench as a web server. For one person it listens on 127.0.0.1 and nowhere else; for a class see <see cref="ClassServing"/>.</summary>
public sealed class Workbench : IAsyncDisposable
{
    private readonly WebApplication server;

    private Workbench(WebApplication server) => this.server = server;

    /// <summary>Where a browser finds it, such as "http://127.0.0.1:5080".</summary>
    public string Address => Of<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    /// <summary>Every route there is.</summary>
    internal IReadOnlyList<Endpoint> Endpoints => Of<EndpointDataSource>().Endpoints;

    /// <summary>Starts listening, for one person.</summary>
    /// <param name="port">1 to 65535, or 0 for a free one; see <see cref="Address"/>.</param>
    /// <param name="library">Where the work is kept; null keeps nothing.</param>
    /// <param name="stop">Stops the start.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static Task<Workbench> StartAsync(int port, TuneLibrary? library = null, CancellationToken stop = default) =>
        StartAsync(port, library, null, stop);

    /// <summary>Starts listening.</summary>
    /// <param name="port">1 to 65535, or 0 for a free one; see <see cref="Address"/>.</param>
    /// <param name="library">Where the work is kept; null keeps nothing.</param>
    /// <param name="ofClass">The class that it is for; null for one person.</param>
    /// <param name="stop">Stops the start.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task<Workbench> StartAsync(
        int port,
        TuneLibrary? library,
        ClassServing? ofClass,
        CancellationToken stop = default
    )
    {
        var app = Build(port, library, ofClass);
        await app.StartAsync(stop);
        return new(app);
    }

    /// <summary>Serves until <paramref name="stop"/> or Ctrl+C.</summary>
    /// <param name="port">1 to 65535, or 0 for a free one.</param>
    /// <param name="started">Told the address once it listens.</param>
    /// <param name="library">Where the work is kept; null keeps nothing.</param>
    /// <param name="ofClass">The class that it is for; null for one person.</param>
    /// <param name="stop">Ends the serving.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task RunAsync(
        int port,
        Action<string> started,
        TuneLibrary? library,
        ClassServing? ofClass,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(started);
        await using var workbench = await StartAsync(port, library, ofClass, stop);
        started(workbench.Address);
        await workbench.server.WaitForShutdownAsync(stop);
    }

    /// <summary>Lets requests under way end, for a moment, and stops.</summary>
    public async ValueTask DisposeAsync()
    {
        await server.StopAsync();
        await server.DisposeAsync();
    }

    /// <summary>What there is one of for the whole server.</summary>
    internal T Of<T>()
        where T : notnull => server.Services.GetRequiredService<T>();

    private static WebApplication Build(int port, TuneLibrary? library, ClassServing? ofClass)
    {
        LeaveThreadsToPages();
        var builder = WebApplication.CreateBuilder(
            new WebApplicationOptions
            {
                ApplicationName = typeof(Workbench).Assembly.GetName().Name,
                ContentRootPath = AppContext.BaseDirectory,
            }
        );
        // What a person should see is on the page; only what goes wrong is for the terminal.
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // Why it does not start is thrown, too, and said in one line by whoever asked for it.
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(ofClass?.Listen ?? IPAddress.Loopback, port));
        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(2));
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.AddSignalR(hub => hub.MaximumReceiveMessageSize = JobKind.Reading.Most * 4);
        builder.Services.AddScoped(_ => new Visit(ofClass?.Room, library));
        if (ofClass is not null)
            builder.AddClass(ofClass);
        else
            AddForOne(builder.Services);
        AddBench(builder.Services);
        // A page elsewhere that points its own name at this machine is turned away.
        builder.Services.AddHostFiltering(filter =>
            filter.AllowedHosts = ofClass?.Address is { } address
                ? [address.Host, "127.0.0.1", "localhost"]
                : ["127.0.0.1", "localhost"]
        );

        var app = builder.Build();
        if (ofClass is not null)
            app.UseProxies(ofClass);
        app.UseHostFiltering();
        app.UseMiddleware<SafeHeaders>();
        app.UseMiddleware<PlainForms>();
        if (ofClass is not null)
            app.UseDoor();
        app.UseAntiforgery();
        app.MapEmbeddedFiles();
        app.MapMade();
        app.MapLessons();
        app.MapTakes();
        app.MapHelp();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        if (ofClass is not null)
            app.MapClassroom(ofClass);
        return app;
    }

    // Heavy work has threads of its own, but documents are drawn on as many of the pool's as there are cores. Pages have as many
    // besides, without waiting for the pool to see that it is too small, which takes half a second for each.
    private static void LeaveThreadsToPages()
    {
        ThreadPool.GetMinThreads(out var workers, out var ports);
        ThreadPool.SetMinThreads(Math.Max(workers, (JobBounds.Usual.Places + 1) * Environment.ProcessorCount), ports);
    }

    private static void AddForOne(IServiceCollection services)
    {
        // Keys live as long as the process: nothing of it is written to the disk of the person who runs it.
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddSingleton<Shelf>();
        services.AddSingleton<LessonShelf>();
        services.AddSingleton(new TakeShelf());
    }

    private static void AddBench(IServiceCollection services)
    {
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(new JobLine());
        services.AddScoped(provider =>
        {
            var visit = provider.GetRequiredService<Visit>();
            return new OwnJobs(
                provider.GetRequiredService<JobLine>(),
                () => visit.Room is null ? "" : visit.Someone.Id
            );
        });
        services.AddScoped<IPracticeLog>(provider =>
            provider.GetRequiredService<Visit>().Library is { } library
                ? new KeptLog(provider.GetRequiredService<Bench>(), library)
                : new VisitLog()
        );
        services.AddScoped<Rehearsal>();
        // Who shares a library without a class is told apart by the name on their own computer.
        services.AddScoped<ILickShelf>(provider =>
            provider.GetRequiredService<Visit>() is { Library: { } library } visit
                ? new KeptLicks(library, visit.Person?.Id ?? Environment.UserName)
                : new VisitLicks()
        );
        services.AddScoped<LickChoice>();
        services.AddScoped(provider => new Bench(
            provider.GetRequiredService<Shelf>(),
            new Keeping(provider.GetRequiredService<Visit>().Library),
            provider.GetRequiredService<LickChoice>(),
            provider.GetRequiredService<OwnJobs>()
        ));
        services.AddScoped(provider => new LessonDesk(
            provider.GetRequiredService<Bench>(),
            provider.GetRequiredService<LessonShelf>(),
            provider.GetRequiredService<Visit>().Library
        ));
        services.AddScoped<TakeDesk>();
        services.AddScoped<PublishDesk>();
    }
}
