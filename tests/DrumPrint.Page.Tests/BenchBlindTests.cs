using System.Text.Json;
using DrumPrint.Bench.Serving;
using DrumPrint.Files;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>The blind test on the bench, on the state before a change and the chain as it is.</summary>
[Collection(Browser.Bench)]
public sealed class BenchBlindTests(Browser browser) : IDisposable
{
    private const int HeardMs = 260;

    // A clock that can be put forward, chance from a list, and what is said to the bench about sides, read below the page's own code.
    private const string Script = """
        const steady = performance.now.bind(performance);
        window.passedMs = 0;
        performance.now = () => steady() + window.passedMs;
        crypto.getRandomValues = bytes => { const sides = [1,0,0,1,1,1,0,1,0,0,1,0,1,1,0,0]; for (let i = 0; i < bytes.length; i++) bytes[i] = sides[i % 16]; return bytes; };
        window.sides = [];
        const send = WebSocket.prototype.send;
        WebSocket.prototype.send = function (data) { if (typeof data === 'string' && data.includes('"side"')) window.sides.push(JSON.parse(data).on ? 'B' : 'A'); return send.call(this, data); };
        """;

    private static readonly bool[] IsB = [true, false, false, true, true, true, false, true, false, false, true, false, true, true, false, false];

    private readonly BenchSession _session = new();

    public void Dispose() => _session.Dispose();

    // 2517 of 65536 ways: the sum of the upper binomial coefficients, as in any table.
    [FactInBrowser]
    public async Task Twelve_of_sixteen_is_told_with_the_odds_of_guessing_and_saved()
    {
        await using var server = await Serve();
        await using var open = await Changed(server);
        await Start(open);
        await Answer(open, right: 12);
        var words = await open.Text("#result");
        var download = await open.Page.RunAndWaitForDownloadAsync(() => open.Page.ClickAsync("#blind-save"));
        using var saved = JsonDocument.Parse(await File.ReadAllTextAsync(await download.PathAsync()));
        var root = saved.RootElement;

        Assert.Contains("12 of 16", words, StringComparison.Ordinal);
        Assert.Contains("p = 0.0384", words, StringComparison.Ordinal);
        Assert.Contains("It does not say which side is better.", words, StringComparison.Ordinal);
        Assert.Equal((16, 12, "before the last change", "the chain as it is"), (root.GetProperty("rounds").GetInt32(), root.GetProperty("correct").GetInt32(), root.GetProperty("a").GetString(), root.GetProperty("b").GetString()));
        Assert.Equal(2517.0 / 65536, root.GetProperty("probability_by_guessing").GetDouble());
        Assert.InRange(root.GetProperty("match").GetProperty("offset_db").GetDouble(), 0.5, 6);

        // A first in each round, then X, which is what chance said; and A again at the end.
        var sides = await open.Page.EvaluateAsync<string[]>("() => window.sides");
        Assert.Equal(IsB.SelectMany(b => new[] { "A", b ? "B" : "A" }).Append("A"), sides);
        Assert.False(await open.Page.EvaluateAsync<bool>("() => document.querySelector('.columns').inert"));
        Assert.True(await open.Page.EvaluateAsync<bool>("() => bench.player.isPlaying"));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task While_it_runs_nothing_else_can_be_set_and_nothing_tells_of_X()
    {
        await using var server = await Serve();
        await using var open = await Changed(server);
        await Start(open);
        await open.Page.EvaluateAsync("() => { window.heard = 0; const say = bench.talk.say; bench.talk.say = m => { window.heard++; return say(m); }; }");
        await open.Page.Keyboard.PressAsync("b");
        Assert.True(await open.IsPressed("#blind-B"));
        await open.Page.Keyboard.PressAsync("x");
        var first = await Snapshot(open);
        await Pass(open);
        await open.Page.Keyboard.PressAsync("1");
        Assert.True(await open.IsPressed("#blind-A"));
        await open.Page.Keyboard.PressAsync("x");
        var second = await Snapshot(open);
        await open.Keep("bench-blind");
        await open.Page.Keyboard.PressAsync("u");

        Assert.Equal(first.Replace("Round 1 of 16", "", StringComparison.Ordinal), second.Replace("Round 2 of 16", "", StringComparison.Ordinal));
        Assert.Equal(0, await open.Page.EvaluateAsync<int>("() => window.heard"));
        Assert.True(await open.Page.IsDisabledAsync("#flip"));
        Assert.True(await open.Page.IsHiddenAsync("#output"));
        Assert.True(await open.Page.EvaluateAsync<bool>("() => [...document.querySelectorAll('.rests')].every(part => part.inert)"));
        Assert.Contains("level_db\": -3", await File.ReadAllTextAsync(_session.Chain), StringComparison.Ordinal);
        foreach (var width in new[] { 390, 1440 })
        {
            await open.Page.SetViewportSizeAsync(width, 900);
            Assert.Empty(await open.Violations());
            var wide = await open.Page.EvaluateAsync<string>("() => document.documentElement.scrollWidth <= innerWidth ? '' : [...document.querySelectorAll('main *')].filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > innerWidth).map(e => e.outerHTML.slice(0, 60)).join(' | ')");
            Assert.Equal("", wide);
        }
    }

    [FactInBrowser]
    public async Task An_edit_from_outside_ends_the_run_and_says_so()
    {
        await using var server = await Serve();
        await using var open = await Changed(server);
        await Start(open);

        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original);
        await open.Page.WaitForSelectorAsync("#blind-setup:not([hidden])");

        Assert.Contains("The chain was changed, so the run ended", await open.Text("#blind-ready"), StringComparison.Ordinal);
        Assert.Contains("Given up", await open.Text("#pass-mark"), StringComparison.Ordinal);
        Assert.False(await open.Page.EvaluateAsync<bool>("() => document.querySelector('.columns').inert"));
    }

    [FactInBrowser]
    public async Task One_state_alone_two_that_are_the_same_and_a_silent_place_are_told()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address, script: Script);
        Assert.Contains("it takes two", await open.Text("#blind-ready"), StringComparison.Ordinal);
        Assert.True(await open.Page.IsDisabledAsync("#blind-start"));

        await open.Page.ClickAsync("#keep");
        await open.Page.WaitForFunctionAsync("() => bench.state.kept.length === 1");
        await open.Page.ClickAsync("#blind-start");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('blind-ready').innerText.includes('Nothing has changed between the two')");
        Assert.True(await open.Page.IsHiddenAsync("#blind-run"));

        await Change(open, kept: 2);
        await open.Page.EvaluateAsync("() => { for (const button of document.querySelectorAll('#strips .ways button:first-child')) button.click(); }");
        await open.Page.ClickAsync("#blind-start");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('blind-ready').innerText.includes('nothing to match by')");

        Assert.True(await open.Page.IsHiddenAsync("#blind-run"));
    }

    private Task<BenchServer> Serve() => BenchServer.Start(_session.Chain, ReadPolicy.Default);

    private async Task<OpenPage> Changed(BenchServer server)
    {
        var open = await browser.Open(server.Address, script: Script);
        await Change(open);
        return open;
    }

    private static async Task Change(OpenPage open, int kept = 1)
    {
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.WaitForFunctionAsync("() => bench.state.may_write");
        await open.Page.EvaluateAsync("() => bench.talk.set([{ place: bench.state.prints[2].place, key: 'level_db', number: -3 }])");
        await open.Page.WaitForFunctionAsync($"() => bench.state.kept.length === {kept}");
    }

    private static async Task Start(OpenPage open)
    {
        await open.Page.EvaluateAsync("() => { document.getElementById('repeat-from').click(); }");
        await open.Page.ClickAsync("#blind-start");
        await open.Page.WaitForSelectorAsync("#blind-run:not([hidden])");
        await open.Page.ClickAsync("#blind-listen");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");
    }

    private static async Task Answer(OpenPage open, int right)
    {
        for (var round = 0; round < IsB.Length; round++)
        {
            await open.Page.ClickAsync("#blind-X");
            await Pass(open);
            await open.Page.ClickAsync(IsB[round] == (round < right) ? "#answer-B" : "#answer-A");
        }
    }

    private static Task Pass(OpenPage open) => open.Page.EvaluateAsync($"() => {{ window.passedMs += {HeardMs}; }}");

    // The test's own part of the page.
    private static Task<string> Snapshot(OpenPage open) => open.Page.EvaluateAsync<string>("() => document.getElementById('blind').innerHTML + JSON.stringify(bench.state)");
}
