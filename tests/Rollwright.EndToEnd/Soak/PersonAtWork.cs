using System.Diagnostics;
using System.Net;
using System.Text;

namespace Rollwright.EndToEnd.Soak;

/// <summary>Somebody who changes the break on their bench now and then, and reads what their page says.</summary>
internal sealed class PersonAtWork(string name) : IAsyncDisposable
{
    private const string Steps = "/assets/steps.js";

    // Nothing that goes back: so all that was kept in the end stands in one line behind what was said.
    private static readonly (string Method, object Wish)[] Acts =
    [
        ("Do", "rest"),
        ("Do", "slur"),
        ("Do", "thumb"),
        ("Do", "middle"),
        ("Do", "free"),
        ("Fret", 0),
        ("Fret", 2),
    ];

    private readonly Lock gate = new();
    private readonly List<string> said = [];
    private PageLine? line;
    private string shown = "";
    private long shownAt;
    private bool isKept;

    public string Name { get; } = name;

    /// <summary>Milliseconds of every change, from the key to the new drawing at the page's end of the line.</summary>
    public List<(long At, double Took)> Changes { get; } = [];

    /// <summary>Names of the breaks that the page showed beside the word that they are kept.</summary>
    public IReadOnlyList<string> Said
    {
        get
        {
            lock (gate)
                return [.. said];
        }
    }

    /// <summary>The break that the page shows; empty before the first.</summary>
    public string Shown
    {
        get
        {
            lock (gate)
                return shown;
        }
    }

    /// <summary>Opens the workbench, and waits until the tune that lies there is arranged and kept.</summary>
    public async Task Come(Uri address, CookieContainer cookies)
    {
        line = await PageLine.Open(address, cookies, Look);
        await Until(() => IsKept && line.HasPart(Steps));
        await line.Tell(Steps, "Move", "start", 0);
    }

    /// <summary>Goes some steps on and changes something there, where hands can do it.</summary>
    public async Task Change(Random random)
    {
        await line!.Tell(Steps, "Move", "step", random.Next(1, 12));
        if (random.Next(12) == 0)
            await line.Tell(Steps, "Move", "start", 0);
        var (method, wish) = Acts[random.Next(Acts.Length)];
        var before = Shown;
        var began = Stopwatch.GetTimestamp();
        await line.Tell(Steps, method, wish);
        // What was drawn before this is heard has come.
        await line.Tell(Steps, "String", 0);
        lock (gate)
        {
            if (shown != before)
                Changes.Add((began, Stopwatch.GetElapsedTime(began, shownAt).TotalMilliseconds));
        }
    }

    /// <summary>Waits until the page says that all is kept.</summary>
    public Task Settle() => Until(() => IsKept);

    public async ValueTask DisposeAsync()
    {
        if (line is not null)
            await line.DisposeAsync();
        line = null;
    }

    private bool IsKept
    {
        get
        {
            lock (gate)
                return isKept && said.Count > 0 && said[^1] == shown;
        }
    }

    // The link by which the break is taken away has its name; the word stands in a line of its own.
    private void Look(ReadOnlyMemory<byte> batch)
    {
        var bytes = batch.Span;
        lock (gate)
        {
            for (var at = bytes.IndexOf("/made/"u8); at > 0; )
            {
                // Texts of a batch stand behind their length.
                var length = bytes[at - 1];
                if (at + length <= bytes.Length && bytes.Slice(at, length).EndsWith(".pdf"u8))
                    (shown, shownAt) = (Encoding.ASCII.GetString(bytes.Slice(at + 6, 16)), Stopwatch.GetTimestamp());
                var next = bytes[(at + 6)..].IndexOf("/made/"u8);
                at = next < 0 ? -1 : at + 6 + next;
            }
            if (bytes.IndexOf("Keeping…"u8) >= 0)
                isKept = false;
            if (bytes.IndexOf("<span>Kept.</span>"u8) >= 0)
                isKept = true;
            if (isKept && shown.Length > 0 && (said.Count == 0 || said[^1] != shown))
                said.Add(shown);
        }
    }

    private static async Task Until(Func<bool> isSo)
    {
        for (var left = 6_000; left > 0 && !isSo(); left--)
            await Task.Delay(50);
        isSo().Should().BeTrue("the page comes to rest");
    }
}
