using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>The system's Chromium, started once for each group of tests, with pages of an invented session.</summary>
public sealed class Browser : IAsyncLifetime
{
    /// <summary>Tests of pages that are opened from the disk.</summary>
    public const string Pages = "pages";

    /// <summary>Tests of the bench, which the page talks to while it is open.</summary>
    public const string Bench = "bench";

    private const float PatienceMs = 120_000;

    private readonly Lazy<PageSession> _session = new(() => new PageSession());
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>Where Chromium is; null where it is not. Its form without windows and menus needs half the time, so it comes first.</summary>
    public static string? Executable { get; } =
        new[] { Environment.GetEnvironmentVariable("DRUMPRINT_CHROMIUM"), "/usr/bin/chromium-headless-shell", "/usr/bin/chromium", "/usr/bin/chromium-browser" }.FirstOrDefault(File.Exists);

    /// <summary>Folder that keeps screenshots, below the build's artifacts.</summary>
    public static string Kept { get; } = Directory.CreateDirectory(Path.Combine(Repository.Folder, "artifacts", "page")).FullName;

    /// <summary>Pages to open, made when the first is asked for.</summary>
    internal PageSession Session => _session.Value;

    public async Task InitializeAsync()
    {
        if (Executable is null)
        {
            return;
        }

        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Executable,
            Headless = true,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    /// <summary>Opens a page from the disk and waits until it is ready.</summary>
    /// <param name="file">The page.</param>
    /// <param name="width">Width of the window.</param>
    /// <param name="isDark">Whether the system asks for dark colours.</param>
    /// <param name="script">Run before the page's own.</param>
    /// <param name="isForced">Whether the system forces its own colours.</param>
    internal async Task<OpenPage> Open(string file, int width = 1280, bool isDark = false, string? script = null, bool isForced = false)
    {
        var context = await _browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = width < 600 ? 844 : 900 },
            DeviceScaleFactor = width < 600 ? 2 : 1,
            ColorScheme = isDark ? ColorScheme.Dark : ColorScheme.Light,
            ForcedColors = isForced ? ForcedColors.Active : ForcedColors.None,
        });
        if (script is not null)
        {
            await context.AddInitScriptAsync(script);
        }

        // A busy machine takes its time; what must be quick is measured, not waited for.
        context.SetDefaultTimeout(PatienceMs);
        var page = await context.NewPageAsync();
        var open = new OpenPage(context, page);
        await page.GotoAsync(new Uri(file).AbsoluteUri);
        await page.WaitForSelectorAsync("html[data-ready]", new PageWaitForSelectorOptions { State = WaitForSelectorState.Attached });
        return open;
    }

    /// <summary>Opens a page in a browser whose scripts are switched off.</summary>
    internal async Task<OpenPage> OpenWithoutScripts(string file)
    {
        var context = await _browser!.NewContextAsync(new BrowserNewContextOptions { JavaScriptEnabled = false, ViewportSize = new ViewportSize { Width = 1000, Height = 900 } });
        var open = new OpenPage(context, await context.NewPageAsync());
        await open.Page.GotoAsync(new Uri(file).AbsoluteUri);
        return open;
    }

    public async Task DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
        if (_session.IsValueCreated)
        {
            Session.Dispose();
        }
    }
}
