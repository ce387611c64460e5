using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>A page in a window of its own, with everything it complained about and asked for.</summary>
internal sealed class OpenPage : IAsyncDisposable
{
    private readonly IBrowserContext _context;

    public OpenPage(IBrowserContext context, IPage page)
    {
        _context = context;
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                Complaints.Add(message.Text);
            }
        };
        page.PageError += (_, error) => Complaints.Add(error);
        context.Request += (_, request) => Requests.Add(request.Url);
    }

    public IPage Page { get; }

    public List<string> Complaints { get; } = [];

    public List<string> Requests { get; } = [];

    /// <summary>The text of an element.</summary>
    public Task<string> Text(string selector) => Page.InnerTextAsync(selector);

    public async Task<bool> IsPressed(string selector) => await Page.GetAttributeAsync(selector, "aria-pressed") == "true";

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();
}
