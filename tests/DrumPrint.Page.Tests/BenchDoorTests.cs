using System.Net;
using System.Net.Http.Headers;
using System.Net.WebSockets;
using DrumPrint.Bench.Serving;
using DrumPrint.Files;

namespace DrumPrint.Page.Tests;

/// <summary>What the bench refuses. Each is a way in that a local server is known to be open to: OWASP, Web Security Testing Guide, and
/// the Fetch standard on origins.</summary>
public sealed class BenchDoorTests(BenchSession session) : IClassFixture<BenchSession>
{
    [Fact]
    public async Task The_address_lets_one_browser_in_and_is_good_no_more_after_that()
    {
        await using var server = await Open();
        using var first = Client();
        using var second = Client();

        var page = await first.GetAsync(new Uri(server.Address));
        var again = await second.GetAsync(new Uri(server.Address));

        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        Assert.Contains("<title>Bench</title>", await page.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, again.StatusCode);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/main.js")]
    [InlineData("/?token=")]
    [InlineData("/?token=0000000000000000000000000000000000000000000000000000000000000000")]
    public async Task Without_the_token_nothing_is_served(string path)
    {
        await using var server = await Open();
        using var client = Client();

        var answer = await client.GetAsync(At(server, path));

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    [InlineData("127.0.0.1:1")]
    public async Task Another_name_for_this_machine_is_refused(string host)
    {
        await using var server = await Open();
        using var client = Client();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(server.Address));
        request.Headers.Host = host;

        var answer = await client.SendAsync(request);

        Assert.Equal(HttpStatusCode.MisdirectedRequest, answer.StatusCode);
    }

    [Theory]
    [InlineData("http://evil.example")]
    [InlineData("http://127.0.0.1:1")]
    [InlineData("null")]
    public async Task A_script_of_another_page_is_refused(string origin)
    {
        await using var server = await Open();
        using var client = await LetIn(server);
        using var request = new HttpRequestMessage(HttpMethod.Get, At(server, "/"));
        request.Headers.Add("Origin", origin);

        var answer = await client.SendAsync(request);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("/talk", "http://evil.example", true)]
    [InlineData("/talk", null, true)]
    [InlineData("/sound", "http://evil.example", true)]
    [InlineData("/talk", "own", false)]
    [InlineData("/sound", "own", false)]
    public async Task A_socket_opens_for_the_page_that_was_let_in_and_its_own_scripts_only(string path, string? origin, bool isKnown)
    {
        await using var server = await Open();
        using var socket = new ClientWebSocket();
        socket.Options.Cookies = isKnown ? await Cookies(server) : null;
        if (origin is not null)
        {
            socket.Options.SetRequestHeader("Origin", origin == "own" ? At(server, "").GetLeftPart(UriPartial.Authority) : origin);
        }

        await Assert.ThrowsAsync<WebSocketException>(() => socket.ConnectAsync(Socket(server, path), CancellationToken.None));
    }

    [Theory]
    [InlineData("/talk")]
    [InlineData("/sound")]
    public async Task The_pages_own_socket_opens(string path)
    {
        await using var server = await Open();
        using var socket = new ClientWebSocket();
        socket.Options.Cookies = await Cookies(server);
        socket.Options.SetRequestHeader("Origin", At(server, "").GetLeftPart(UriPartial.Authority));

        await socket.ConnectAsync(Socket(server, path), CancellationToken.None);

        Assert.Equal(WebSocketState.Open, socket.State);
    }

    [Theory]
    [InlineData("/SlowFerry.chain.json")]
    [InlineData("/bench.chain.json")]
    [InlineData("/raw/low.wav")]
    [InlineData("/../bench.chain.json")]
    [InlineData("/%2e%2e/bench.chain.json")]
    [InlineData("/..%2f..%2fetc/passwd")]
    [InlineData("//etc/passwd")]
    [InlineData("/main.js/")]
    public async Task No_file_of_the_disk_is_served(string path)
    {
        await using var server = await Open();
        using var client = await LetIn(server);

        var answer = await client.GetAsync(new Uri(At(server, "").GetLeftPart(UriPartial.Authority) + path));

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Theory]
    [InlineData("POST")]
    [InlineData("PUT")]
    [InlineData("OPTIONS")]
    public async Task Nothing_can_be_sent_to_it(string method)
    {
        await using var server = await Open();
        using var client = await LetIn(server);
        using var request = new HttpRequestMessage(new HttpMethod(method), At(server, "/"));

        var answer = await client.SendAsync(request);

        Assert.Equal(HttpStatusCode.MethodNotAllowed, answer.StatusCode);
    }

    [Fact]
    public async Task Every_answer_tells_the_browser_to_load_nothing_from_elsewhere_and_to_let_nobody_frame_it()
    {
        await using var server = await Open();
        using var client = await LetIn(server);
        foreach (var path in PageFiles.Paths.Append("/none"))
        {
            var answer = await client.GetAsync(At(server, path));
            string Header(string name) => string.Join(", ", answer.Headers.TryGetValues(name, out var values) ? values : []);

            var policy = Header("Content-Security-Policy").Split("; ");
            Assert.Contains("default-src 'none'", policy);
            Assert.Contains("frame-ancestors 'none'", policy);
            Assert.DoesNotContain(policy, p => p.Contains("unsafe", StringComparison.Ordinal) || p.Contains('*', StringComparison.Ordinal));
            Assert.Equal("same-origin", Header("Cross-Origin-Opener-Policy"));
            Assert.Equal("require-corp", Header("Cross-Origin-Embedder-Policy"));
            Assert.Equal("same-origin", Header("Cross-Origin-Resource-Policy"));
            Assert.Equal("nosniff", Header("X-Content-Type-Options"));
            Assert.Equal("no-referrer", Header("Referrer-Policy"));
            Assert.Equal("no-store", Header("Cache-Control"));
        }
    }

    [Fact]
    public async Task It_listens_on_this_machine_only()
    {
        await using var server = await Open();
        var address = new Uri(server.Address);

        Assert.Equal("127.0.0.1", address.Host);
        var listening = System.Net.NetworkInformation.IPGlobalProperties.GetIPGlobalProperties().GetActiveTcpListeners().Where(l => l.Port == address.Port);
        Assert.All(listening, l => Assert.True(IPAddress.IsLoopback(l.Address)));
    }

    [Fact]
    public async Task A_second_bench_on_the_same_chain_is_refused_in_words()
    {
        await using var server = await Open();

        var refusal = await Assert.ThrowsAsync<UsageException>(() => Open());

        Assert.Contains("open on", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_leaves_nothing_beside_the_chain()
    {
        var before = Directory.GetFileSystemEntries(Path.GetDirectoryName(session.Chain)!).Order().ToList();

        await using (await Open())
        {
        }

        Assert.Equal(before, Directory.GetFileSystemEntries(Path.GetDirectoryName(session.Chain)!).Order());
    }

    private Task<BenchServer> Open() => BenchServer.Start(session.Chain, ReadPolicy.Default);

    private static HttpClient Client(CookieContainer? cookies = null) => new(new HttpClientHandler { CookieContainer = cookies ?? new CookieContainer() });

    private static async Task<HttpClient> LetIn(BenchServer server)
    {
        var client = Client();
        (await client.GetAsync(new Uri(server.Address))).EnsureSuccessStatusCode();
        return client;
    }

    private static async Task<CookieContainer> Cookies(BenchServer server)
    {
        var cookies = new CookieContainer();
        using var client = Client(cookies);
        (await client.GetAsync(new Uri(server.Address))).EnsureSuccessStatusCode();
        return cookies;
    }

    private static Uri At(BenchServer server, string path) => new(new Uri(server.Address).GetLeftPart(UriPartial.Authority) + path);

    private static Uri Socket(BenchServer server, string path) => new UriBuilder(At(server, path)) { Scheme = "ws" }.Uri;
}
