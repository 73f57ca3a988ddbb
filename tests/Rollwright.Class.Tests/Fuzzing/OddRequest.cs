using System.Globalization;
using System.Text;

namespace Rollwright.Class.Tests.Fuzzing;

/// <summary>
/// Requests to a route as no browser sends them: odd values in the address, other methods, headers that are too many or too large,
/// bodies of another kind, cut off, or with odd values in their fields. The same seed makes the same request.
/// </summary>
/// <param name="random">Draws.</param>
/// <param name="known">Names that lead somewhere: of lessons, members, takes.</param>
internal sealed class OddRequest(Random random, IReadOnlyList<string> known)
{
    private static readonly string[] Methods =
    [
        "GET",
        "POST",
        "HEAD",
        "PUT",
        "DELETE",
        "PATCH",
        "OPTIONS",
        "TRACE",
        "BREW",
    ];

    private static readonly string[] Odd =
    [
        "",
        "0",
        "1",
        "-1",
        "2147483648",
        "99999999999999999999",
        "NaN",
        "null",
        "true",
        "00000000-0000-0000-0000-000000000000",
        "ffffffff-ffff-ffff-ffff-ffffffffffff",
        "..",
        "../../../../etc/passwd",
        "..%2f..%2f..%2fetc%2fpasswd",
        "%2e%2e/%2e%2e",
        "..\\..\\win.ini",
        "C:\\",
        "/",
        "//",
        "%00",
        "a%00b",
        "%ff%fe",
        "%c0%ae%c0%ae%2f",
        "%ed%a0%80",
        "%",
        "%zz",
        "%0d%0aSet-Cookie:%20x=y",
        "'; DROP TABLE \"Lessons\"; --",
        "<script>alert(1)</script>",
        "{0}{1}%s%n",
        "page",
        "handout",
        "score",
        "break.pdf",
        "x.wav",
        "x.PDF",
        "everything.zip",
        "\u202Eevil",
        "🪕",
        "ÄÖÜ",
        "İ",
        "a\u0301",
        "2026-02-30",
        "9999-12-31",
        "0001-01-01",
        "1e308",
        "teacher",
        "on",
        "https://elsewhere.example/",
        "//elsewhere.example",
        "/\\elsewhere.example",
    ];

    private static readonly string[] Fields =
    [
        "name",
        "password",
        "again",
        "role",
        "words",
        "pupil",
        "tempo",
        "due",
        "lesson",
        "closed",
        "withdrawn",
        "stay",
        "to",
        "from",
        "sound",
        "circuitId",
    ];

    private static readonly string[] Kinds =
    [
        "application/x-www-form-urlencoded",
        "application/x-www-form-urlencoded; charset=utf-7",
        "multipart/form-data",
        "multipart/form-data; boundary=",
        "multipart/form-data; boundary=x",
        "multipart/mixed; boundary=x",
        "application/json",
        "text/plain",
        "audio/wav",
        "audio/wav; codecs=1",
        "application/octet-stream",
        "nonsense",
        "/",
    ];

    /// <param name="method">The route's own.</param>
    /// <param name="pattern">The route's.</param>
    /// <param name="cookies">Of whoever asks; empty for nobody.</param>
    /// <param name="token">That forms of theirs are sent with.</param>
    /// <returns>With whether a server that reads it knows where it ends.</returns>
    public (byte[] Bytes, bool IsWhole) To(string method, string pattern, string cookies, string token)
    {
        if (random.Next(6) == 0)
            method = Any(Methods);
        var (kind, body) = Body(method, token);
        var head = new StringBuilder();
        head.Append(CultureInfo.InvariantCulture, $"{method} {Address(pattern)} HTTP/1.1\r\n");
        if (random.Next(50) != 0)
            head.Append(random.Next(40) == 0 ? "Host: elsewhere.example\r\n" : "Host: 127.0.0.1\r\n");
        head.Append("Connection: close\r\n");
        if (cookies.Length > 0)
            head.Append(CultureInfo.InvariantCulture, $"Cookie: {cookies}\r\n");
        Headers(head);
        if (kind.Length > 0)
            head.Append(CultureInfo.InvariantCulture, $"Content-Type: {kind}\r\n");
        var isWhole = (body.Length == 0 && random.Next(8) != 0) || Length(head, ref body);
        head.Append("\r\n");
        return ([.. Encoding.UTF8.GetBytes(head.ToString()), .. body], isWhole);
    }

    private string Address(string pattern)
    {
        var path = Routes.Filled(
            pattern,
            place =>
                random.Next(3) == 0 && place.Contains("guid", StringComparison.Ordinal) ? $"{new Guid(Bytes(16))}"
                : random.Next(2) == 0 && known.Count > 0 ? known[random.Next(known.Count)]
                : Escaped(Value(4_000))
        );
        if (random.Next(10) == 0)
            path += Escaped(Value(200));
        return random.Next(4) == 0 ? $"{path}?{Any(Fields)}={Escaped(Value(2_000))}&open={Escaped(Value(40))}" : path;
    }

    private void Headers(StringBuilder head)
    {
        switch (random.Next(24))
        {
            case 0:
                head.Append(CultureInfo.InvariantCulture, $"X-Large: {new string('x', random.Next(40_000))}\r\n");
                break;
            case 1:
                for (var i = random.Next(200); i > 0; i--)
                    head.Append(CultureInfo.InvariantCulture, $"X-{i}: y\r\n");
                break;
            case 2:
                head.Append(CultureInfo.InvariantCulture, $"Cookie: rollwright={Escaped(Value(300))}\r\n");
                break;
            case 3:
                head.Append("If-Modified-Since: yesterday\r\nIf-None-Match: *\r\nIf-Range: \"x\"\r\n");
                break;
            case 4:
                head.Append(
                    "Accept: nothing/at-all;q=7, */*;q=-1\r\nAccept-Encoding: rot13\r\nAccept-Language: \u0001x\r\n"
                );
                break;
            case 5:
                head.Append("Expect: 100-continue\r\n");
                break;
            case 6:
                head.Append("Upgrade: websocket\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: x\r\n");
                break;
            case 7:
                head.Append(
                    "X-Forwarded-For: 1.2.3.4, ::1\r\nX-Forwarded-Host: elsewhere.example\r\nX-Forwarded-Proto: gopher\r\n"
                );
                break;
            case 8:
                head.Append(
                    CultureInfo.InvariantCulture,
                    $"Origin: {Any(["null", "http://127.0.0.1", "https://elsewhere.example"])}\r\n"
                );
                break;
            case 9:
                head.Append("no colon here\r\n");
                break;
            case < 14:
                var range = Any(["-5--1", "0-", "5-1", "-0", "99999999999999999999-", "0-0,1-1,2-2,3-3", "a-b", ""]);
                head.Append(CultureInfo.InvariantCulture, $"Range: bytes={range}\r\n");
                break;
            case 14:
                head.Append("Blazor-Enhanced-Nav: x\r\nAccept: text/html; blazor-enhanced-nav=on\r\n");
                break;
        }
        if (random.Next(2) == 0)
            head.Append("Accept: text/html\r\n");
    }

    private (string Kind, byte[] Bytes) Body(string method, string token)
    {
        if (method is "GET" or "HEAD" or "OPTIONS" && random.Next(20) != 0)
            return ("", []);
        var names = Fields.Where(_ => random.Next(3) == 0).ToList();
        return random.Next(10) switch
        {
            < 5 => (
                Kinds[0],
                Encoding.UTF8.GetBytes(
                    string.Join(
                        '&',
                        names
                            .Select(name => $"{name}={Escaped(Value(5_000))}")
                            .Prepend($"__RequestVerificationToken={Uri.EscapeDataString(token)}")
                    )
                )
            ),
            < 8 => ("multipart/form-data; boundary=x", Parts(names, token)),
            8 => (Any(Kinds), Parts(names, token)),
            _ => (Any(Kinds), Bytes(random.Next(3_000))),
        };
    }

    private byte[] Parts(List<string> names, string token)
    {
        var bytes = new List<byte>();
        Part("__RequestVerificationToken", "", Encoding.UTF8.GetBytes(token));
        foreach (var name in names)
            Part(
                name,
                name == "sound" || random.Next(10) == 0
                    ? $"; filename=\"{Any(["a.wav", "b.mp3", "../x.ogg", "c.html", ""])}\""
                    : "",
                random.Next(3) == 0 ? Bytes(random.Next(3_000)) : Encoding.UTF8.GetBytes(Value(5_000))
            );
        bytes.AddRange("--x--\r\n"u8);
        // Some come to an end before their time.
        return random.Next(4) == 0 ? [.. bytes.Take(random.Next(bytes.Count))] : [.. bytes];

        void Part(string name, string more, byte[] value)
        {
            bytes.AddRange(
                Encoding.UTF8.GetBytes($"--x\r\nContent-Disposition: form-data; name=\"{name}\"{more}\r\n\r\n")
            );
            bytes.AddRange(value);
            bytes.AddRange("\r\n"u8);
        }
    }

    // How long the body is said to be: mostly truly.
    private bool Length(StringBuilder head, ref byte[] body)
    {
        switch (random.Next(16))
        {
            case 0:
                head.Append(CultureInfo.InvariantCulture, $"Content-Length: {body.Length + random.Next(1, 1_000)}\r\n");
                return false;
            case 1:
                var wrong = Any(["-1", "99999999999999999999", "200000000", "x"]);
                head.Append(CultureInfo.InvariantCulture, $"Content-Length: {wrong}\r\n");
                return false;
            case 2:
                head.Append("Transfer-Encoding: chunked\r\n");
                body = [.. Encoding.ASCII.GetBytes($"{body.Length:x}\r\n"), .. body, .. "\r\n0\r\n\r\n"u8];
                return true;
            case 3:
                head.Append("Transfer-Encoding: chunked\r\n");
                return false;
            default:
                head.Append(CultureInfo.InvariantCulture, $"Content-Length: {body.Length}\r\n");
                return true;
        }
    }

    private string Value(int most) =>
        random.Next(8) switch
        {
            0 => new string(Any(["x", "9", "/", ".", "ä"])[0], random.Next(most)),
            1 when known.Count > 0 => known[random.Next(known.Count)],
            2 => $"{Any(Odd)}{Any(Odd)}",
            3 => $"a{(char)random.Next(1, 32)}b\0c",
            _ => Any(Odd),
        };

    // Much of what is odd is odd because it is not escaped; spaces and line ends would end the address.
    private string Escaped(string value) =>
        random.Next(2) == 0 || value.AsSpan().ContainsAnyInRange('\0', ' ') ? Uri.EscapeDataString(value) : value;

    private byte[] Bytes(int count)
    {
        var bytes = new byte[count];
        random.NextBytes(bytes);
        return bytes;
    }

    private string Any(string[] of) => of[random.Next(of.Length)];
}
