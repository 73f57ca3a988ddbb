using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Rollwright.Library;
using Rollwright.Web.Pages;
using Rollwright.Web.State;
using Rollwright.Web.State.Hearing;
using Rollwright.Web.State.Licks;
using Rollwright.Web.State.Teaching;

namespace Rollwright.Web.Hosting;

/// <summary>The workbench as a local web server. It listens on 127.0.0.1 and nowhere else.</summary>
public sealed class Workbench : IAsyncDisposable
{
    private readonly WebApplication server;

    private Workbench(WebApplication server) => this.server = server;

    /// <summary>Where a browser finds it, such as "http://127.0.0.1:5080".</summary>
    public string Address =>
        server.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    /// <summary>Starts listening.</summary>
    /// <param name="port">1 to 65535, or 0 for a free one; see <see cref="Address"/>.</param>
    /// <param name="library">Where the work is kept; null keeps nothing.</param>
    /// <param name="stop">Stops the start.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task<Workbench> StartAsync(
        int port,
        TuneLibrary? library = null,
        CancellationToken stop = default
    )
    {
        var app = Build(port, library);
        await app.StartAsync(stop);
        return new(app);
    }

    /// <summary>Serves until <paramref name="stop"/> or Ctrl+C.</summary>
    /// <param name="port">1 to 65535, or 0 for a free one.</param>
    /// <param name="started">Told the address once it listens.</param>
    /// <param name="library">Where the work is kept; null keeps nothing.</param>
    /// <param name="stop">Ends the serving.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task RunAsync(
        int port,
        Action<string> started,
        TuneLibrary? library = null,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(started);
        await using var workbench = await StartAsync(port, library, stop);
        started(workbench.Address);
        await workbench.server.WaitForShutdownAsync(stop);
    }

    /// <summary>Lets requests under way end, for a moment, and stops.</summary>
    public async ValueTask DisposeAsync()
    {
        await server.StopAsync();
        await server.DisposeAsync();
    }

    private static WebApplication Build(int port, TuneLibrary? library)
    {
        var builder = WebApplication.CreateBuilder(
            new WebApplicationOptions
            {
                ApplicationName = typeof(Workbench).Assembly.GetName().Name,
                ContentRootPath = AppContext.BaseDirectory,
            }
        );
        // What a person should see is on the page; only what goes wrong is for the terminal.
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, port));
        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(2));
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.AddSignalR(hub => hub.MaximumReceiveMessageSize = Bench.MostCharacters * 4);
        // Keys live as long as the process: nothing of it is written to the disk of the person who runs it.
        builder.Services.AddDataProtection().UseEphemeralDataProtectionProvider();
        builder.Services.AddSingleton<Shelf>();
        builder.Services.AddScoped<IPracticeLog>(services =>
            library is null ? new VisitLog() : new KeptLog(services.GetRequiredService<Bench>(), library)
        );
        builder.Services.AddScoped<Rehearsal>();
        builder.Services.AddSingleton(TimeProvider.System);
        // Who shares a library is told apart by the name on their own computer.
        builder.Services.AddScoped<ILickShelf>(_ =>
            library is null ? new VisitLicks() : new KeptLicks(library, Environment.UserName)
        );
        builder.Services.AddScoped<LickChoice>();
        builder.Services.AddScoped(services => new Bench(
            services.GetRequiredService<Shelf>(),
            new Keeping(library),
            services.GetRequiredService<LickChoice>()
        ));
        builder.Services.AddSingleton<LessonShelf>();
        builder.Services.AddScoped(services => new LessonDesk(
            services.GetRequiredService<Bench>(),
            services.GetRequiredService<LessonShelf>(),
            library
        ));
        builder.Services.AddSingleton<TakeShelf>();
        builder.Services.AddScoped<TakeDesk>();
        // A page elsewhere that points its own name at this machine is turned away.
        builder.Services.AddHostFiltering(filter => filter.AllowedHosts = ["127.0.0.1", "localhost"]);

        var app = builder.Build();
        app.UseHostFiltering();
        app.UseMiddleware<SafeHeaders>();
        app.UseAntiforgery();
        app.MapEmbeddedFiles();
        app.MapMade();
        app.MapLessons();
        app.MapTakes();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }
}
