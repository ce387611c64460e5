using System.Net;
using System.Net.WebSockets;
using System.Runtime;
using System.Threading.Channels;
using DrumPrint.Files;
using DrumPrint.Live;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;

namespace DrumPrint.Bench.Serving;

/// <summary>Serves the bench of one chain to one page, on this machine only.</summary>
public sealed class BenchServer : IAsyncDisposable
{
    private const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; worker-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
    private const int MostMessageBytes = 1 << 18;
    private const int LeastThreads = 16;

    private readonly BenchHold _hold;
    private readonly Desk _desk;
    private readonly Door _door = new();
    private readonly CancellationTokenSource _end = new();
    private readonly WebApplication _app;
    private CancellationTokenSource? _page;
    private string? _pageName;

    private BenchServer(string chainPath, ReadPolicy reading)
    {
        _hold = new BenchHold(chainPath);
        try
        {
            _desk = new Desk(chainPath, reading);
        }
        catch
        {
            _hold.Dispose();
            throw;
        }

        _desk.Ended = _end.Cancel;
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 0;
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http1);
        });
        _app = builder.Build();
        _app.UseWebSockets(new WebSocketOptions { KeepAliveInterval = TimeSpan.FromSeconds(20) });
        _app.Run(Serve);
    }

    /// <summary>The address that opens the page, once.</summary>
    public string Address => _door.Address;

    /// <summary>Done when the page has ended the bench.</summary>
    public CancellationToken Ended => _end.Token;

    /// <summary>Opens a chain and begins to serve it, on a free port.</summary>
    /// <param name="chainPath">The chain file.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <exception cref="UsageException">A bench is open on it already.</exception>
    /// <exception cref="DrumPrintException">It cannot be read, or its files are missing.</exception>
    public static async Task<BenchServer> Start(string chainPath, ReadPolicy reading)
    {
        var server = new BenchServer(chainPath, reading);
        GCSettings.LatencyMode = GCLatencyMode.SustainedLowLatency;

        // Sound must not wait for a thread while others compute.
        ThreadPool.SetMinThreads(LeastThreads, LeastThreads);
        server._desk.Start();
        await server._app.StartAsync().ConfigureAwait(false);
        var address = server._app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single();
        server._door.Host = new Uri(address).Authority;
        return server;
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync().ConfigureAwait(false);
        _page?.Cancel();
        using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(2));
        await _app.StopAsync(soon.Token).ConfigureAwait(false);
        await _app.DisposeAsync().ConfigureAwait(false);
        _desk.Dispose();
        _hold.Dispose();
        _end.Dispose();
    }

    private async Task Serve(HttpContext context)
    {
        var (request, response) = (context.Request, context.Response);
        Protect(response.Headers);
        var isSocket = context.WebSockets.IsWebSocketRequest;
        if (!_door.IsHost(request))
        {
            await Refuse(response, StatusCodes.Status421MisdirectedRequest, "This is the bench of DrumPrint. It answers to its own address only.").ConfigureAwait(false);
        }
        else if (!_door.IsOrigin(request, isSocket))
        {
            await Refuse(response, StatusCodes.Status403Forbidden, "The bench answers to its own page only.").ConfigureAwait(false);
        }
        else if (request.Method != HttpMethods.Get)
        {
            await Refuse(response, StatusCodes.Status405MethodNotAllowed, "The bench can only be asked.").ConfigureAwait(false);
        }
        else if (request.Path == "/" && request.Query.ContainsKey("token") && _door.LetsIn(context))
        {
            response.Redirect("/");
        }
        else if (!_door.IsKnown(request))
        {
            await Refuse(response, StatusCodes.Status403Forbidden, "This address has been used. Go on in the page that it opened, or end the bench with Ctrl-C and start it again.").ConfigureAwait(false);
        }
        else if (isSocket && request.Path == "/talk" && IsLate(request))
        {
            await Refuse(response, StatusCodes.Status409Conflict, "Another window has the bench now.").ConfigureAwait(false);
        }
        else if (isSocket && request.Path == "/talk")
        {
            await Talk(context).ConfigureAwait(false);
        }
        else if (isSocket && request.Path == "/sound")
        {
            using var socket = await context.WebSockets.AcceptWebSocketAsync(Plain).ConfigureAwait(false);
            await _desk.Sound.Send(socket, _page?.Token ?? _end.Token).ConfigureAwait(false);
        }
        else if (request.Path == "/favicon.ico")
        {
            response.StatusCode = StatusCodes.Status204NoContent;
        }
        else if (!isSocket && PageFiles.Find(request.Path) is { } file)
        {
            response.ContentType = file.Type;
            await response.Body.WriteAsync(file.Bytes).ConfigureAwait(false);
        }
        else
        {
            await Refuse(response, StatusCodes.Status404NotFound, "There is no such thing here.").ConfigureAwait(false);
        }
    }

    private static WebSocketAcceptContext Plain => new() { DangerousEnableCompression = false };

    private static void Protect(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Embedder-Policy"] = "require-corp";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers.XContentTypeOptions = "nosniff";
        headers.CacheControl = "no-store";
    }

    private static async Task Refuse(HttpResponse response, int status, string words)
    {
        response.StatusCode = status;
        response.ContentType = "text/plain; charset=utf-8";
        await response.WriteAsync(words).ConfigureAwait(false);
    }

    // A page that lost its way comes back, but not when another one has come meanwhile.
    private bool IsLate(HttpRequest request) => request.Query.ContainsKey("again") && _pageName != request.Query["page"];

    // The page that came last has the bench.
    private async Task Talk(HttpContext context)
    {
        _pageName = context.Request.Query["page"];
        using var socket = await context.WebSockets.AcceptWebSocketAsync(Plain).ConfigureAwait(false);
        using var gone = CancellationTokenSource.CreateLinkedTokenSource(_end.Token);
        var before = Interlocked.Exchange(ref _page, gone);
        if (before is not null)
        {
            Cancel(before);
        }

        var words = Channel.CreateUnbounded<byte[]>(new UnboundedChannelOptions { SingleReader = true });
        _desk.Tell = message => words.Writer.TryWrite(message);
        _desk.Sound.Over = () => words.Writer.TryWrite("{\"kind\":\"over\"}"u8.ToArray());
        _desk.Greet();
        var sending = SendAll(socket, words.Reader, gone);
        var buffer = new byte[MostMessageBytes];
        var length = 0;
        try
        {
            while (true)
            {
                var got = await socket.ReceiveAsync(buffer.AsMemory(length), gone.Token).ConfigureAwait(false);
                length += got.Count;
                if (got.MessageType == WebSocketMessageType.Close || length == buffer.Length)
                {
                    break;
                }

                if (got.EndOfMessage)
                {
                    _desk.Take(buffer.AsSpan(0, length));
                    length = 0;
                }
            }
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or IOException)
        {
            // The page is gone, or another one has come.
        }

        words.Writer.TryComplete();
        await sending.ConfigureAwait(false);
        Cancel(gone);
        Interlocked.CompareExchange(ref _page, null, gone);
        _desk.Sound.Stop();
    }

    private static async Task SendAll(WebSocket socket, ChannelReader<byte[]> words, CancellationTokenSource gone)
    {
        try
        {
            await foreach (var message in words.ReadAllAsync(gone.Token).ConfigureAwait(false))
            {
                await socket.SendAsync(message, WebSocketMessageType.Text, true, gone.Token).ConfigureAwait(false);
            }
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or IOException)
        {
            Cancel(gone);
        }
    }

    private static void Cancel(CancellationTokenSource source)
    {
        try
        {
            source.Cancel();
        }
        catch (ObjectDisposedException)
        {
            // It has ended by itself.
        }
    }
}
