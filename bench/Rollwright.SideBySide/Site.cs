using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;

namespace Rollwright.SideBySide;

/// <summary>A page for the browser on this machine alone, which draws, times, and sends what it measured.</summary>
internal sealed class Site : IDisposable
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);
    private readonly HttpListener listener = new();
    private readonly string address;
    private readonly byte[] tunes;
    private readonly TaskCompletionSource<Answer> measured = new();

    internal sealed record Answer(double?[] Times, string[] Faults);

    public Site(string tunes)
    {
        this.tunes = Encoding.UTF8.GetBytes(tunes);
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        address = $"http://127.0.0.1:{((IPEndPoint)free.LocalEndpoint).Port}/";
        free.Stop();
        listener.Prefixes.Add(address);
        listener.Start();
        _ = Task.Run(Serve);
    }

    public async Task<Answer> Measure()
    {
        using var browser = Browser("--remote-debugging-port=0", address + "page.html");
        var answer = await measured.Task.WaitAsync(TimeSpan.FromMinutes(5));
        browser.Kill(entireProcessTree: true);
        return answer;
    }

    public async Task Picture(int tune, string file)
    {
        using var browser = Browser(
            $"--screenshot={Path.GetFullPath(file)}",
            "--window-size=595,842",
            "--force-device-scale-factor=1.53",
            "--hide-scrollbars",
            "--virtual-time-budget=8000",
            $"{address}page.html?picture={tune}"
        );
        await browser.WaitForExitAsync();
    }

    public void Dispose() => listener.Close();

    private static Process Browser(params string[] arguments)
    {
        var start = new ProcessStartInfo("chromium")
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
            UseShellExecute = false,
        };
        foreach (var argument in (string[])["--headless=new", "--no-sandbox", "--disable-gpu", .. arguments])
            start.ArgumentList.Add(argument);
        var browser = Process.Start(start)!;
        browser.BeginErrorReadLine();
        browser.BeginOutputReadLine();
        return browser;
    }

    private async Task Serve()
    {
        while (listener.IsListening)
        {
            var context = await listener.GetContextAsync();
            var name = context.Request.Url!.AbsolutePath.Trim('/');
            if (name == "result")
            {
                measured.TrySetResult(
                    (await JsonSerializer.DeserializeAsync<Answer>(context.Request.InputStream, Web))!
                );
                context.Response.Close();
                continue;
            }
            var bytes = name switch
            {
                "tunes.json" => tunes,
                "page.html" or "draw.js" => await File.ReadAllBytesAsync(Path.Combine(Here, name)),
                "vexflow.js" => await File.ReadAllBytesAsync(
                    Path.Combine(Here, "node_modules", "vexflow", "build", "cjs", name)
                ),
                _ => null,
            };
            context.Response.StatusCode = bytes is null ? 404 : 200;
            context.Response.ContentType =
                name.EndsWith(".js", StringComparison.Ordinal) ? "text/javascript"
                : name.EndsWith(".html", StringComparison.Ordinal) ? "text/html"
                : "application/json";
            await context.Response.OutputStream.WriteAsync(bytes ?? []);
            context.Response.Close();
        }
    }

    // Beside the sources: the page and what npm fetched.
    private static string Here => Path.Combine(AppContext.BaseDirectory, "..", "..", "..");
}
