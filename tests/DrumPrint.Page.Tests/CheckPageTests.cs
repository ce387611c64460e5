using DrumPrint.Checking;
using DrumPrint.CheckPages;
using DrumPrint.Demo.Faults;

namespace DrumPrint.Page.Tests;

/// <summary>The page of a check, of takes that are damaged on purpose.</summary>
[Collection(Browser.Pages)]
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

        // Findings name folders, and a name may be longer than a telephone is wide.
        var made = FaultyDemo.Write(Path.Combine(_folder, "TakesOfTheSecondEveningInTheShedBehindTheHarbourAsTheyWereLeftForTheMixer"), full: false, hasPrints: false, null, null, CancellationToken.None);
        _report = Checker.Check(made.Session.Chain, new CheckOptions { HasPictures = true });
        CheckPage.Write(_page, _report);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [FactInBrowser]
    public async Task The_page_of_a_check_fits_a_telephone_and_a_desk_in_light_and_dark_without_a_complaint()
    {
        foreach (var width in new[] { 390, 1280 })
        {
            await using var open = await _browser.Open(_page, width);
            foreach (var isDark in new[] { false, true })
            {
                await open.Colour(isDark);
                Assert.Equal(width, await open.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth"));
                Assert.Equal(_report.Findings.Count, await open.Page.Locator("article.finding").CountAsync());
                Assert.Equal(_report.Pictures!.Places.Sum(p => p.Count), await open.Page.Locator(".pictures svg").CountAsync());
                Assert.Empty(await open.Violations());
                await open.Keep($"check-{width}-{(isDark ? "dark" : "light")}");
            }

            Assert.Empty(open.Complaints);
            Assert.Single(open.Requests);
        }
    }
}
