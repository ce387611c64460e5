using System.Numerics;
using System.Text.Json;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

[Collection(Browser.Pages)]
public sealed class BlindTestTests(Browser browser)
{
    private const int Rounds = 16;

    // A little longer than the page asks for.
    private const int HeardMs = 260;

    // The page's clock, which a test may put forward instead of waiting.
    private const string Clock = """
        const steady = performance.now.bind(performance);
        window.passedMs = 0;
        performance.now = () => steady() + window.passedMs;

        """;

    // Stands in for the browser's source of chance: byte after byte from a list, and a note that it was asked.
    private static readonly string Chance = Clock + """
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
        Assert.Equal((16, 12, true), (root.GetProperty("rounds").GetInt32(), root.GetProperty("correct").GetInt32(), root.GetProperty("passed").GetBoolean()));
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
        await HearX(open);
        await open.Page.ClickAsync("#answer-B");
        await HearX(open);
        await open.Page.Locator("#blind").ScreenshotAsync(new LocatorScreenshotOptions { Path = Path.Combine(Browser.Kept, "blind-test.png") });
        await open.Page.ClickAsync("#blind-listen");
        await open.Page.EvaluateAsync("() => { const p = document.getElementById('position'); p.value = p.min; p.dispatchEvent(new Event('input')); }");
        var first = await Snapshot(open);
        await open.Page.ClickAsync("#answer-A");

        // Going on with X would let the change from one X to the next be heard.
        Assert.True(await open.IsPressed("#blind-A"));
        await open.Page.ClickAsync("#blind-X");
        var second = await Snapshot(open);

        Assert.Equal(1, await open.Page.EvaluateAsync<int>("() => window.asked"));
        Assert.Equal(first.Replace("Round 2 of 16", "", StringComparison.Ordinal), second.Replace("Round 3 of 16", "", StringComparison.Ordinal));
        Assert.True(await open.Page.IsDisabledAsync("#side-D"));
        Assert.True(await open.Page.IsDisabledAsync("#match"));
        Assert.True(await open.Page.IsHiddenAsync("#blind-setup"));
    }

    [FactInBrowser]
    public async Task The_number_of_rounds_is_settled_before_the_start_and_levels_are_matched()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.UncheckAsync("#match");
        await open.Page.FillAsync("#rounds", "10");
        var mark = await open.Text("#pass-mark");
        await open.Page.ClickAsync("#blind-start");

        Assert.Contains("9 right are needed", mark, StringComparison.Ordinal);
        Assert.Equal("Round 1 of 10", await open.Text("#round"));
        Assert.True(await open.Page.IsCheckedAsync("#match"));
    }

    [FactInBrowser]
    public async Task An_answer_before_X_was_heard_is_refused_kindly_and_not_counted()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#answer-A");
        var silent = await open.Text("#blind-words");
        await open.Page.ClickAsync("#blind-listen");
        await Pass(open);
        await open.Page.Keyboard.PressAsync("2");
        var unheard = await open.Text("#blind-words");
        var still = await open.Text("#round");

        // Turned all the way down it is not heard either.
        await open.Page.EvaluateAsync("() => { const v = document.getElementById('volume'); v.value = -60; v.dispatchEvent(new Event('input')); }");
        await HearX(open);
        await open.Page.ClickAsync("#answer-A");
        var off = await open.Text("#round");
        await open.Page.EvaluateAsync("() => { const v = document.getElementById('volume'); v.value = -30; v.dispatchEvent(new Event('input')); }");
        await Pass(open);
        await open.Page.ClickAsync("#answer-A");

        Assert.StartsWith("Nothing can be heard yet.", silent, StringComparison.Ordinal);
        Assert.StartsWith("X has not been heard in this round yet.", unheard, StringComparison.Ordinal);
        Assert.Equal(("Round 1 of 16", "Round 1 of 16", "Round 2 of 16"), (still, off, await open.Text("#round")));
        Assert.Equal("", await open.Text("#blind-words"));
    }

    [FactInBrowser]
    public async Task Given_up_nothing_is_counted()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.ClickAsync("#blind-start");
        await HearX(open);
        await open.Page.ClickAsync("#answer-A");
        await open.Page.ClickAsync("#blind-stop");

        Assert.Contains("Given up", await open.Text("#pass-mark"), StringComparison.Ordinal);
        Assert.True(await open.Page.IsHiddenAsync("#blind-result"));
        Assert.True(await open.Page.IsEnabledAsync("#side-D"));
    }

    [FactInBrowser]
    public async Task Mono_cannot_change_within_a_run_and_the_result_tells_of_it()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.CheckAsync("#mono");
        await open.Page.ClickAsync("#blind-start");
        await open.Page.Keyboard.PressAsync("m");

        Assert.True(await open.Page.IsDisabledAsync("#mono"));
        Assert.True(await open.Page.IsCheckedAsync("#mono"));

        await open.Page.ClickAsync("#blind-stop");
        await Answer(open, right: 12, byKey: true);
        using var saved = await Saved(open);

        Assert.True(saved.RootElement.GetProperty("mono").GetBoolean());
        Assert.True(await open.Page.IsEnabledAsync("#mono"));
    }

    [FactInBrowser]
    public async Task A_key_that_is_held_down_answers_once()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.ClickAsync("#blind-start");
        await HearX(open);
        for (var i = 0; i < 5; i++)
        {
            await open.Page.Keyboard.DownAsync("1");
        }

        Assert.Equal("Round 2 of 16", await open.Text("#round"));
    }

    [FactInBrowser]
    public async Task A_trim_by_hand_goes_back_to_0_for_a_run_and_stays_there_from_round_to_round()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.EvaluateAsync("() => { const t = document.getElementById('trim'); t.value = 1.5; t.dispatchEvent(new Event('input')); }");
        Assert.Equal(1.5, await Trim(open));

        await open.Page.ClickAsync("#blind-start");
        for (var round = 0; round < 3; round++)
        {
            Assert.Equal(0, await Trim(open));
            Assert.True(await open.Page.IsDisabledAsync("#trim"));
            await HearX(open);
            await open.Page.ClickAsync("#answer-A");
        }
    }

    // Ramps are counted as the browser is told of them: two for the sides, two for the dip to silence and back.
    [FactInBrowser]
    public async Task Every_switch_of_a_blind_test_goes_through_silence_also_one_to_the_same_side()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance + """

            window.ramps = 0;
            const ramp = AudioParam.prototype.linearRampToValueAtTime;
            AudioParam.prototype.linearRampToValueAtTime = function (...way) { window.ramps++; return ramp.apply(this, way); };
            """);
        await open.Page.ClickAsync("#listen");
        await open.Page.WaitForTimeoutAsync(300);
        Assert.Equal(2, await Ramps(open, "#side-B"));

        await open.Page.ClickAsync("#blind-start");
        var toOther = await Ramps(open, "#blind-X");
        await HearX(open);
        await open.Page.ClickAsync("#answer-A");
        var toSame = await Ramps(open, "#blind-X");

        Assert.Equal((4, 4), (toOther, toSame));
    }

    [FactInBrowser]
    public async Task X_can_be_neither_read_nor_overheard_through_the_objects_of_the_window()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await open.Page.EvaluateAsync("""
            () => {
              window.overheard = 0;
              const listen = object => {
                for (const key of Object.keys(object)) {
                  const value = object[key];
                  if (typeof value === 'function') object[key] = (...all) => { window.overheard++; return value.apply(object, all); };
                  else if (key === 'player' || key === 'desk') listen(value);
                }
              };
              listen(window.drumPrint);
              window.drumPrint.desk.state.isBlind = false;
            }
            """);
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#blind-X");
        var first = await State(open);
        await HearX(open);
        await open.Page.ClickAsync("#answer-A");
        await open.Page.ClickAsync("#blind-X");

        Assert.Equal(0, await open.Page.EvaluateAsync<int>("() => window.overheard"));
        Assert.Equal(first, await State(open));
        Assert.Contains("\"isBlind\":true", first, StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task A_result_tells_how_many_runs_and_give_ups_came_before_it()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, script: Chance);
        await Answer(open, right: 9, byKey: true);
        var alone = await open.Text("#result");
        await open.Page.ClickAsync("#blind-again");
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#blind-stop");
        await Answer(open, right: 12, byKey: true);
        using var saved = await Saved(open);

        Assert.DoesNotContain("runs", alone, StringComparison.Ordinal);
        Assert.Contains("one of 3 runs since this page was opened (1 finished before it and 1 given up)", await open.Text("#result"), StringComparison.Ordinal);
        Assert.Equal((2, 1), (saved.RootElement.GetProperty("runs_finished").GetInt32(), saved.RootElement.GetProperty("runs_given_up").GetInt32()));
    }

    // The textbook sum of binomial coefficients, in whole numbers.
    [FactInBrowser]
    public async Task The_statistic_is_the_exact_binomial()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        foreach (var rounds in new[] { 5, 10, 16, 20, 25, 50 })
        {
            var chances = await open.Page.EvaluateAsync<double[]>($"() => Array.from({{ length: {rounds + 1} }}, (_, k) => window.drumPrint.chanceOf(k, {rounds}))");

            for (var correct = 0; correct <= rounds; correct++)
            {
                var ways = BigInteger.Zero;
                for (var k = correct; k <= rounds; k++)
                {
                    ways += Factorial(rounds) / Factorial(k) / Factorial(rounds - k);
                }

                Assert.Equal((double)ways / Math.Pow(2, rounds), chances[correct]);
            }
        }
    }

    private static async Task HearX(OpenPage open)
    {
        if (await open.Text("#blind-listen") == "Listen")
        {
            await open.Page.ClickAsync("#blind-listen");
        }

        await open.Page.ClickAsync("#blind-X");
        await Pass(open);
    }

    private static Task Pass(OpenPage open) => open.Page.EvaluateAsync($"() => {{ window.passedMs += {HeardMs}; }}");

    private static Task<double> Trim(OpenPage open) => open.Page.EvaluateAsync<double>("() => window.drumPrint.desk.state.trimDb");

    private static Task<string> State(OpenPage open) => open.Page.EvaluateAsync<string>(
        "() => JSON.stringify([window.drumPrint, window.drumPrint.desk.state], (key, value) => key === 'sides' || key === 'data' ? undefined : value)");

    private static async Task<int> Ramps(OpenPage open, string button)
    {
        await open.Page.EvaluateAsync("() => { window.ramps = 0; }");
        await open.Page.ClickAsync(button);
        await open.Page.WaitForTimeoutAsync(100);
        return await open.Page.EvaluateAsync<int>("() => window.ramps");
    }

    private static async Task<JsonDocument> Saved(OpenPage open)
    {
        var download = await open.Page.RunAndWaitForDownloadAsync(() => open.Page.ClickAsync("#blind-save"));
        return JsonDocument.Parse(await File.ReadAllTextAsync(await download.PathAsync()));
    }

    private static BigInteger Factorial(int n) => Enumerable.Range(1, n).Aggregate(BigInteger.One, (x, y) => x * y);

    private static async Task Answer(OpenPage open, int right, bool byKey)
    {
        Assert.Equal(Rounds.ToString(System.Globalization.CultureInfo.InvariantCulture), await open.Page.InputValueAsync("#rounds"));
        await open.Page.ClickAsync("#blind-start");
        if (await open.Text("#blind-listen") == "Listen")
        {
            await open.Page.ClickAsync("#blind-listen");
        }

        for (var round = 0; round < Rounds; round++)
        {
            var isB = (Hidden[round] == 1) == (round < right);
            if (byKey)
            {
                await open.Page.Keyboard.PressAsync("x");
                await Pass(open);
                await open.Page.Keyboard.PressAsync(isB ? "2" : "1");
            }
            else
            {
                await open.Page.ClickAsync("#blind-X");
                await Pass(open);
                await open.Page.ClickAsync(isB ? "#answer-B" : "#answer-A");
            }
        }
    }

    // All that the page shows or lets be read, but for the waveform's moving place.
    private static Task<string> Snapshot(OpenPage open) =>
        open.Page.EvaluateAsync<string>("() => document.querySelector('main').innerHTML + JSON.stringify(window.drumPrint.desk.state)");
}
