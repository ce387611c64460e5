using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>A page in a window of its own, with everything it complained about and asked for.</summary>
internal sealed class OpenPage : IAsyncDisposable
{
    private static readonly string Axe = new BundledAxeScriptProvider().GetScript();

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

    /// <summary>What axe complains about by any of its rules.</summary>
    /// <remarks>Our pages hold no frames, so axe runs right in them: no second page that sums up.</remarks>
    public async Task<string[]> Violations()
    {
        if (!await Page.EvaluateAsync<bool>("() => 'axe' in window"))
        {
            await Page.EvaluateAsync(Axe);
        }

        await Painted();

        return await Page.EvaluateAsync<string[]>("""
            async () => {
              const { violations, passes } = await axe.run(document, { resultTypes: ['violations'] });
              return passes.length === 0 ? ['axe looked at nothing'] : violations.flatMap(v => v.nodes.map(n => `${v.id}: ${v.help}: ${n.html}`));
            }
            """);
    }

    /// <summary>Keeps a picture of the whole page, a point for each of its own pixels.</summary>
    public Task Keep(string name) => Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Browser.Kept, name + ".png"), FullPage = true, Scale = ScreenshotScale.Css });

    /// <summary>Has the system ask for other colours, until the page shows them.</summary>
    public async Task Colour(bool isDark, bool isForced = false)
    {
        await Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = isDark ? ColorScheme.Dark : ColorScheme.Light, ForcedColors = isForced ? ForcedColors.Active : ForcedColors.None });
        await Painted();
    }

    /// <summary>Waits until all that has happened so far is painted, and nothing fades from one colour to another.</summary>
    public Task Painted() => Page.EvaluateAsync("""
        async () => {
          await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
          await Promise.allSettled(document.getAnimations().map(animation => animation.finished));
        }
        """);

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();
}
