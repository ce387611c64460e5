using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using DrumPrint.Checking;
using DrumPrint.CheckPages;
using DrumPrint.Demo.Faults;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>The page of a check, of takes that are damaged on purpose.</summary>
[Collection(Browser.Collection)]
public sealed class CheckPageTests : IDisposable
{
    private readonly Browser _browser;
    private readonly string _folder = Directory.CreateTempSubdirectory("drumprint-").FullName;
    private readonly string _page;
    private readonly CheckReport _report;

    public CheckPageTests(Browser browser)
    {
        _browser = browser;
        _page = Path.Combine(_folder, "check.html");
        var made = FaultyDemo.Write(Path.Combine(_folder, "damaged"), full: false, hasPrints: false, null, null, CancellationToken.None);
        _report = Checker.Check(made.Session.Chain, new CheckOptions { HasPictures = true });
        CheckPage.Write(_page, _report);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [FactInBrowser]
    public async Task The_page_of_a_check_fits_a_telephone_and_a_desk_in_light_and_dark_without_a_complaint()
    {
        foreach (var (width, isDark) in new[] { (390, false), (390, true), (1280, false), (1280, true) })
        {
            await using var open = await _browser.Open(_page, width, isDark);
            Assert.Equal(width, await open.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth"));
            Assert.Equal(_report.Findings.Count, await open.Page.Locator("article.finding").CountAsync());
            Assert.Equal(_report.Pictures!.Places.Sum(p => p.Count), await open.Page.Locator(".pictures svg").CountAsync());
            var axe = await open.Page.RunAxe(new AxeRunOptions { ResultTypes = [ResultType.Violations] });
            Assert.Empty(axe.Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id}: {n.Html}")));
            Assert.Empty(open.Complaints);
            Assert.Single(open.Requests);
            await open.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Browser.Kept, $"check-{width}-{(isDark ? "dark" : "light")}.png"), FullPage = true });
        }
    }
}
