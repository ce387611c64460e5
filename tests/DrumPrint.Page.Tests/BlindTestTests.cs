using System.Numerics;
using System.Text.Json;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

[Collection(Browser.Collection)]
public sealed class BlindTestTests(Browser browser)
{
    private const int Trials = 16;

    // Stands in for the browser's source of chance: byte after byte from a list, and a note that it was asked.
    private static readonly string Chance = """
        window.asked = 0;
        window.hiddenSides = [1,0,0,1,1,1,0,1,0,0,1,0,1,1,0,0];
        crypto.getRandomValues = bytes => { window.asked++; for (let i = 0; i < bytes.length; i++) bytes[i] = window.hiddenSides[i % 16]; return bytes; };
        Math.random = () => { throw new Error('not from here'); };
        """;

    private static readonly int[] Hidden = [1, 0, 0, 1, 1, 1, 0, 1, 0, 0, 1, 0, 1, 1, 0, 0];

    [FactInBrowser]
    public async Task Twelve_of_sixteen_is_good_evidence_at_p_0_0384_and_is_saved()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await Answer(open, right: 12, byKey: false);
        var words = await open.Text("#result");
        var download = await open.Page.RunAndWaitForDownloadAsync(() => open.Page.ClickAsync("#blind-save"));
        using var saved = JsonDocument.Parse(await File.ReadAllTextAsync(await download.PathAsync()));
        var root = saved.RootElement;

        Assert.Contains("12 of 16", words, StringComparison.Ordinal);
        Assert.Contains("p = 0.0384", words, StringComparison.Ordinal);
        Assert.Contains("It does not say which side is better.", words, StringComparison.Ordinal);
        Assert.Equal((16, 12, true), (root.GetProperty("trials").GetInt32(), root.GetProperty("correct").GetInt32(), root.GetProperty("passed").GetBoolean()));
        Assert.Equal(2517.0 / 65536, root.GetProperty("probability_by_guessing").GetDouble());
        Assert.Equal(Hidden.Select(h => h == 1 ? "B" : "A"), root.GetProperty("answers").EnumerateArray().Select(a => a.GetProperty("x").GetString()));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Eleven_of_sixteen_proves_nothing_either_way_at_p_0_1051()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await Answer(open, right: 11, byKey: true);
        var words = await open.Text("#result");

        Assert.Contains("11 of 16", words, StringComparison.Ordinal);
        Assert.Contains("p = 0.1051", words, StringComparison.Ordinal);
        Assert.Contains("about one time in 10 ", words, StringComparison.Ordinal);
        Assert.Contains("not proof that you heard a difference, or that you did not", words, StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task Nothing_tells_of_X_or_the_score_before_the_last_answer()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#answer-B");
        await open.Page.ClickAsync("#blind-X");
        await open.Page.Locator("#blind").ScreenshotAsync(new LocatorScreenshotOptions { Path = Path.Combine(Browser.Kept, "blind-test.png") });
        var first = await Snapshot(open);
        await open.Page.ClickAsync("#answer-A");

        // Going on with X would let the change from one X to the next be heard.
        Assert.True(await open.IsPressed("#blind-A"));
        await open.Page.ClickAsync("#blind-X");
        var second = await Snapshot(open);

        Assert.Equal(1, await open.Page.EvaluateAsync<int>("() => window.asked"));
        Assert.Equal(first.Replace("Trial 2 of 16", "", StringComparison.Ordinal), second.Replace("Trial 3 of 16", "", StringComparison.Ordinal));
        Assert.True(await open.Page.IsDisabledAsync("#side-D"));
        Assert.True(await open.Page.IsDisabledAsync("#match"));
        Assert.True(await open.Page.IsHiddenAsync("#blind-setup"));
    }

    [FactInBrowser]
    public async Task The_number_of_trials_is_settled_before_the_start_and_levels_are_matched()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.UncheckAsync("#match");
        await open.Page.FillAsync("#trials", "10");
        var mark = await open.Text("#pass-mark");
        await open.Page.ClickAsync("#blind-start");

        Assert.Contains("9 right are needed", mark, StringComparison.Ordinal);
        Assert.Equal("Trial 1 of 10", await open.Text("#trial"));
        Assert.True(await open.Page.IsCheckedAsync("#match"));
    }

    [FactInBrowser]
    public async Task Given_up_nothing_is_counted()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#answer-A");
        await open.Page.ClickAsync("#blind-stop");

        Assert.Contains("Given up", await open.Text("#pass-mark"), StringComparison.Ordinal);
        Assert.True(await open.Page.IsHiddenAsync("#blind-result"));
        Assert.True(await open.Page.IsEnabledAsync("#side-D"));
    }

    // The textbook sum of binomial coefficients, in whole numbers.
    [FactInBrowser]
    public async Task The_statistic_is_the_exact_binomial()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        foreach (var trials in new[] { 5, 10, 16, 20, 25, 50 })
        {
            var chances = await open.Page.EvaluateAsync<double[]>($"() => Array.from({{ length: {trials + 1} }}, (_, k) => window.drumPrint.chanceOf(k, {trials}))");

            for (var correct = 0; correct <= trials; correct++)
            {
                var ways = BigInteger.Zero;
                for (var k = correct; k <= trials; k++)
                {
                    ways += Factorial(trials) / Factorial(k) / Factorial(trials - k);
                }

                Assert.Equal((double)ways / Math.Pow(2, trials), chances[correct]);
            }
        }
    }

    private static BigInteger Factorial(int n) => Enumerable.Range(1, n).Aggregate(BigInteger.One, (x, y) => x * y);

    private static async Task Answer(OpenPage open, int right, bool byKey)
    {
        Assert.Equal(Trials.ToString(System.Globalization.CultureInfo.InvariantCulture), await open.Page.InputValueAsync("#trials"));
        await open.Page.ClickAsync("#blind-start");
        for (var trial = 0; trial < Trials; trial++)
        {
            var isB = (Hidden[trial] == 1) == (trial < right);
            if (byKey)
            {
                await open.Page.Keyboard.PressAsync("x");
                await open.Page.Keyboard.PressAsync(isB ? "2" : "1");
            }
            else
            {
                await open.Page.ClickAsync("#blind-X");
                await open.Page.ClickAsync(isB ? "#answer-B" : "#answer-A");
            }
        }
    }

    // All that the page shows or lets be read, but for the waveform's moving place.
    private static Task<string> Snapshot(OpenPage open) =>
        open.Page.EvaluateAsync<string>("() => document.querySelector('main').innerHTML + JSON.stringify(window.drumPrint.desk.state)");
}
