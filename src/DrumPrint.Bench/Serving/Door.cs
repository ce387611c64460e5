using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;

namespace DrumPrint.Bench.Serving;

/// <summary>Lets one browser in, and nobody else.</summary>
/// <remarks>The address holds a token that is good once. Whoever comes with it gets a cookie, without which nothing else is served. A name that
/// another site had point at this machine is told by the host it asks for; a script of another page by the origin it comes from.</remarks>
internal sealed class Door
{
    private const int SecretBytes = 32;

    private readonly string _cookie = Secret();
    private string? _token = Secret();

    /// <summary>The host that must be asked for, with its port.</summary>
    public string Host { get; set; } = "";

    /// <summary>The address that opens the page, once.</summary>
    public string Address => $"http://{Host}/?token={_token}";

    private string CookieName => "bench_" + Host[(Host.IndexOf(':', StringComparison.Ordinal) + 1)..];

    /// <summary>Whether a request asks for this machine by its own name.</summary>
    public bool IsHost(HttpRequest request) => request.Host.Value == Host;

    /// <summary>Whether it comes from the bench's own page, or from an address that was typed.</summary>
    public bool IsOrigin(HttpRequest request, bool isNeeded)
    {
        var origin = request.Headers.Origin;
        return origin.Count == 0 ? !isNeeded : origin.Count == 1 && origin[0] == $"http://{Host}";
    }

    /// <summary>Whether it comes from the browser that was let in.</summary>
    public bool IsKnown(HttpRequest request) => request.Cookies.TryGetValue(CookieName, out var value) && IsSame(value, _cookie);

    /// <summary>Lets a browser in that brings the token; it is good no more then.</summary>
    public bool LetsIn(HttpContext context)
    {
        var token = context.Request.Query["token"];
        if (token.Count != 1 || Volatile.Read(ref _token) is not { } right || !IsSame(token[0]!, right) || Interlocked.Exchange(ref _token, null) is null)
        {
            return false;
        }

        context.Response.Cookies.Append(CookieName, _cookie, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/" });
        return true;
    }

    private static bool IsSame(string a, string b) => CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(a), Encoding.UTF8.GetBytes(b));

    private static string Secret() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SecretBytes));
}
