using System.Net;
using System.Text.RegularExpressions;

namespace Rollwright.Class.Tests;

/// <summary>Somebody with a browser of their own: it keeps cookies, and follows no redirection, so that each can be looked at.</summary>
internal sealed partial class Guest : IDisposable
{
    private readonly HttpClientHandler handler = new() { AllowAutoRedirect = false, CookieContainer = new() };
    private readonly HttpClient client;

    public Guest(string address)
    {
        client = new(handler) { BaseAddress = new(address) };
        client.DefaultRequestHeaders.Accept.ParseAdd("text/html");
    }

    public CookieContainer Cookies => handler.CookieContainer;

    public Task<HttpResponseMessage> Get(string path) => client.GetAsync(path);

    public Task<HttpResponseMessage> Send(HttpRequestMessage request) => client.SendAsync(request);

    /// <summary>Fills in a form and sends it, with the token that stands on the page where the form is.</summary>
    public async Task<HttpResponseMessage> Post(string path, string page, params (string Name, string Value)[] fields)
    {
        using var form = new FormUrlEncodedContent([
            new("__RequestVerificationToken", await TokenOf(page)),
            .. fields.Select(field => KeyValuePair.Create(field.Name, field.Value)),
        ]);
        return await client.PostAsync(path, form);
    }

    /// <summary>The same with a file.</summary>
    public async Task<HttpResponseMessage> Post(string path, string page, string field, string file, byte[] bytes)
    {
        using var form = new MultipartFormDataContent
        {
            { new StringContent(await TokenOf(page)), "__RequestVerificationToken" },
            { new ByteArrayContent(bytes), field, file },
        };
        return await client.PostAsync(path, form);
    }

    public async Task<HttpResponseMessage> SignIn(string name, string password, string to = "/class") =>
        await Post("/sign-in", "/sign-in", ("name", name), ("password", password), ("to", to));

    public void Dispose() => client.Dispose();

    private async Task<string> TokenOf(string page) =>
        Token().Match(await client.GetStringAsync(page)).Groups["token"].Value;

    [GeneratedRegex(
        """name="__RequestVerificationToken" value="(?<token>[^"]+)""",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Token();
}
