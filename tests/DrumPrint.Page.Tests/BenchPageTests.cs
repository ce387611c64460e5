using DrumPrint.Bench.Serving;
using DrumPrint.Files;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>The bench in the browser, with a session of its own for each test.</summary>
[Collection(Browser.Bench)]
public sealed class BenchPageTests(Browser browser) : IDisposable
{
    // All that the page waits for comes ten times sooner.
    private const string Hasty = "const later = setTimeout; window.setTimeout = (what, ms, ...all) => later(what, ms / 10, ...all);";

    private readonly BenchSession _session = new();

    public void Dispose() => _session.Dispose();

    [FactInBrowser]
    public async Task It_plays_from_where_it_is_told_and_stops()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);

        await open.Page.EvaluateAsync("() => bench.player.move(4 * 48000)");
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4.2 * 48000");
        var clock = await open.Text("#clock");
        await open.Page.Keyboard.PressAsync("Escape");

        Assert.StartsWith("bar 3", clock, StringComparison.Ordinal);
        Assert.False(await open.IsPressed("#play"));
        Quiet(open);
    }

    [FactInBrowser]
    public async Task The_first_change_asks_once_and_is_then_written_where_it_stands()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Type(open, "impact", "ratio of compress", "6");
        await open.Page.WaitForSelectorAsync("#ask[open]");
        Assert.Equal(BenchSession.Original, await File.ReadAllTextAsync(_session.Chain));

        await open.Page.ClickAsync("#ask-yes");
        await Written(BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 6", StringComparison.Ordinal));
        await Type(open, "impact", "threshold of compress", "-30");
        await Written(BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 6", StringComparison.Ordinal).Replace("-34", "-30", StringComparison.Ordinal));

        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('threshold')");
        Assert.False(await open.Page.IsVisibleAsync("#ask"));
        Assert.Equal(BenchSession.Original, await File.ReadAllTextAsync(Path.Combine(Path.GetDirectoryName(_session.Chain)!, ".bench.chain.json.before-bench")));
        Quiet(open);
    }

    [FactInBrowser]
    public async Task Whoever_will_only_listen_writes_nothing()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Type(open, "impact", "ratio of compress", "6");

        await open.Page.ClickAsync("#ask-no");
        await open.Page.WaitForFunctionAsync("() => [...document.querySelectorAll('.setting')].find(s => s.innerText.startsWith('ratio')).querySelector('input[type=number]').value === '10'");

        Assert.Equal(BenchSession.Original, await File.ReadAllTextAsync(_session.Chain));
    }

    [FactInBrowser]
    public async Task A_change_is_taken_back_with_one_key_and_the_file_is_what_it_was()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Allow(open);
        await Type(open, "impact", "ratio of compress", "6");
        await Written(BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 6", StringComparison.Ordinal));

        await open.Page.ClickAsync("#title");
        await open.Page.Keyboard.PressAsync("u");
        await Written(BenchSession.Original);

        await open.Page.Keyboard.PressAsync("r");
        await Written(BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 6", StringComparison.Ordinal));
    }

    [FactInBrowser]
    public async Task An_edit_in_an_editor_comes_onto_the_page_and_a_mistake_is_told_at_its_place()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact']");

        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 3", StringComparison.Ordinal));
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.startsWith('Edited outside')");
        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 300", StringComparison.Ordinal));
        await open.Page.WaitForSelectorAsync("#mistakes:not([hidden])");

        var mistakes = await open.Text("#mistakes");
        Assert.Contains("buses.impact.through[1].compress.ratio", mistakes, StringComparison.Ordinal);
        Assert.Contains("last good state", mistakes, StringComparison.Ordinal);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");
        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original);
        await open.Page.WaitForSelectorAsync("#mistakes", new PageWaitForSelectorOptions { State = WaitForSelectorState.Hidden });
    }

    [FactInBrowser]
    public async Task Before_and_after_are_one_key_apart_at_the_same_spot()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Allow(open);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 48000");
        await open.Page.EvaluateAsync("() => new Promise(done => { bench.talk.on('match', m => { window.match = m.db; done(); }); bench.talk.set([{ place: bench.state.prints[2].place, key: 'level_db', number: -3 }]); })");

        await open.Page.ClickAsync("#title");
        await open.Page.Keyboard.PressAsync("b");
        await open.Page.WaitForSelectorAsync("#flip.on");
        var there = await open.Page.EvaluateAsync<double>("() => bench.player.frame");
        await open.Page.Keyboard.PressAsync("b");
        await open.Page.WaitForSelectorAsync("#flip:not(.on)");

        Assert.InRange(await open.Page.EvaluateAsync<double>("() => window.match"), 0.5, 6);
        Assert.InRange(await open.Page.EvaluateAsync<double>("() => bench.player.frame") - there, 0, 20 * 48000);
        Assert.True(await open.Page.EvaluateAsync<bool>("() => bench.player.isPlaying"));
    }

    [FactInBrowser]
    public async Task Each_kept_state_is_matched_by_its_own_loudness()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Allow(open);
        await open.Page.EvaluateAsync("""
            () => {
              window.matches = [];
              bench.talk.on('match', m => matches.push([m.kept, m.db]));
              bench.talk.say({ kind: 'keep' });
              bench.player.move(10 * bench.state.rate_hz);
              bench.talk.set(bench.state.prints.map(print => ({ place: print.place, key: 'level_db', number: -12 })));
            }
            """);
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1 && matches.length > 0");
        var louder = await open.Page.EvaluateAsync<double>("() => matches.at(-1)[1]");

        // A state that is as the chain is says nothing of the other.
        await open.Page.ClickAsync("#keep");
        await open.Page.WaitForFunctionAsync("() => bench.state.kept.length === 3");
        await open.Page.ClickAsync("#flip");
        await open.Page.WaitForSelectorAsync("#flip.on");
        Assert.True(louder < -1, $"{louder} dB");
        Assert.Contains("softer than that state", await open.Page.InnerTextAsync("#words"), StringComparison.Ordinal);

        // Another state is heard as soon as it is chosen, and matched by itself.
        await open.Page.SelectOptionAsync("#kept", "2");
        await open.Page.WaitForFunctionAsync("() => bench.state.heard === 2 && matches.at(-1)[0] === 2");
        Assert.Equal(0, await open.Page.EvaluateAsync<double>("() => matches.at(-1)[1]"));
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('as loud as that state')");
        Assert.Contains("state 2", await open.Page.InnerTextAsync("#open-words"), StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task A_chain_with_a_mistake_is_not_printed()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original.Replace("\"buses\"", "\"busses\"", StringComparison.Ordinal));
        await open.Page.WaitForSelectorAsync("#mistakes");

        await open.Page.ClickAsync("#print");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('nothing was printed')");

        Assert.False(Directory.Exists(Path.Combine(Path.GetDirectoryName(_session.Chain)!, "prints")));
    }

    [FactInBrowser]
    public async Task An_ended_bench_says_so_and_the_page_rests()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);

        await open.Page.ClickAsync("#end");
        await open.Page.WaitForTimeoutAsync(1500);

        Assert.True(server.Ended.IsCancellationRequested);
        Assert.Equal("The bench has ended. This page can be closed.", await open.Page.InnerTextAsync("#words"));
        Assert.Equal(0, await open.Page.Locator("main button:enabled").CountAsync());
    }

    [FactInBrowser]
    public async Task A_jump_into_what_a_file_has_lost_stops_and_says_so()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");
        var take = Directory.GetFiles(Path.GetDirectoryName(_session.Chain)!, "*.wav", SearchOption.AllDirectories).Order().First();
        await using (var file = new FileStream(take, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            file.SetLength(4096);
        }

        await open.Page.EvaluateAsync("() => bench.player.play(10 * bench.state.rate_hz)");
        await open.Page.WaitForFunctionAsync("() => !bench.player.isPlaying");

        Assert.Contains(Path.GetFileName(take), await open.Page.InnerTextAsync("#words"), StringComparison.Ordinal);
        Assert.Equal("Play", await open.Page.InnerTextAsync("#play"));
    }

    [FactInBrowser]
    public async Task It_prints_and_says_what_is_new()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);

        await open.Page.ClickAsync("#print");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.startsWith('Printed')");

        Assert.True(File.Exists(Path.Combine(Path.GetDirectoryName(_session.Chain)!, "prints", "03_Impact_Harbour_v1.wav")));
        Assert.Contains("03_Impact", await open.Text("#printed"), StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task No_request_leaves_this_machine()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");

        var own = new Uri(server.Address).GetLeftPart(UriPartial.Authority);
        Assert.All(open.Requests, r => Assert.StartsWith(own, r, StringComparison.Ordinal));
        Quiet(open);
    }

    [FactInBrowser]
    public async Task A_bench_that_is_gone_is_told_and_the_sound_stops()
    {
        var server = await Serve();
        await using var open = await browser.Open(server.Address, script: Hasty);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");

        await server.DisposeAsync();
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('no longer answers')");

        Assert.False(await open.IsPressed("#play"));
    }

    [FactInBrowser]
    public async Task A_way_that_broke_is_found_again_and_the_sound_goes_on()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");

        await open.Page.EvaluateAsync("() => bench.talk.drop()");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('answers again')");
        Assert.False(await open.IsPressed("#play"));
        var there = await open.Page.EvaluateAsync<double>("() => bench.player.frame");
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync($"() => bench.player.frame > {there} + 24000");
        await Allow(open);
        await Type(open, "impact", "ratio of compress", "6");
        await Written(BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 6", StringComparison.Ordinal));
    }

    [FactInBrowser]
    public async Task A_second_window_takes_over_and_the_first_says_so()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        var second = await open.Page.Context.NewPageAsync();
        await second.GotoAsync(new Uri(server.Address).GetLeftPart(UriPartial.Authority));
        await second.WaitForSelectorAsync("html[data-ready]", new PageWaitForSelectorOptions { State = WaitForSelectorState.Attached });

        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('another window has taken it over')");

        await second.ClickAsync("#play");
        await second.WaitForFunctionAsync("() => bench.player.frame > 4800");
    }

    [FactInBrowser]
    public async Task Sound_that_the_system_stops_is_told_and_goes_on_by_hand()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");

        await open.Page.EvaluateAsync("() => bench.player.context.suspend()");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('Press Play to go on')");
        Assert.False(await open.IsPressed("#play"));
        var there = await open.Page.EvaluateAsync<double>("() => bench.player.frame");
        await open.Page.ClickAsync("#play");

        await open.Page.WaitForFunctionAsync($"() => bench.player.frame > {there} + 24000");
        Quiet(open);
    }

    [FactInBrowser]
    public async Task A_raw_file_that_is_gone_is_told_and_nothing_is_written()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Allow(open);
        File.Delete(Path.Combine(Path.GetDirectoryName(_session.Chain)!, "raw", "high.wav"));

        await Type(open, "impact", "ratio of compress", "6");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('high.wav')");

        Assert.Equal(BenchSession.Original, await File.ReadAllTextAsync(_session.Chain));
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");
    }

    [FactInBrowser]
    public async Task A_raw_file_that_was_cut_short_while_it_plays_is_told_and_the_sound_stops()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");

        using (var file = new FileStream(Path.Combine(Path.GetDirectoryName(_session.Chain)!, "raw", "low.wav"), FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            file.SetLength(1000);
        }

        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('low.wav')");
        Assert.False(await open.IsPressed("#play"));
    }

    [FactInBrowser]
    public async Task The_sum_is_measured_before_the_drum_bus_and_after_it()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.CheckAsync("#with-bus");
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => [...document.querySelectorAll('#meters td')].every(cell => cell.textContent !== '–')");
        await open.Page.WaitForTimeoutAsync(1500);

        var figures = await open.Page.EvaluateAsync<double[]>("() => [...document.querySelectorAll('#meters td')].map(cell => Number(cell.textContent.replace('−', '-')))");
        var bands = await open.Page.EvaluateAsync<double>("() => { const { width, height } = document.getElementById('bands'); return document.getElementById('bands').getContext('2d').getImageData(0, 0, width, height).data.filter((v, i) => i % 4 === 3 && v > 0).length / width / height; }");
        await open.Keep("bench-meters");

        Assert.InRange(figures[0], -40, -5);
        Assert.InRange(figures[1], -20, 6);
        Assert.InRange(figures[2], 5, 30);
        Assert.True(figures[3] < figures[0], "the drum bus turns down");
        Assert.InRange(bands, 0.05, 0.9);
        Quiet(open);
    }

    [FactInBrowser]
    public async Task What_is_found_stands_beside_its_bus_and_what_lines_up_is_written_on_request()
    {
        using var session = new BenchSession(hasPair: true);
        await using var server = await BenchServer.Start(session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address);
        await Allow(open);
        await open.Page.ClickAsync("#look");
        await open.Page.WaitForSelectorAsync("#moves button");
        var found = await open.Text("#found");
        var moves = await open.Text("#moves");

        await open.Page.ClickAsync("#routing g[aria-label^='Bus low']");
        var beside = await open.Text("#open-found-words");
        await open.Page.ClickAsync("#moves button >> nth=0");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length > 0");
        var written = await File.ReadAllTextAsync(session.Chain);
        await open.Keep("bench-found");

        // What was taken back would line up again.
        await open.Page.WaitForFunctionAsync("before => document.getElementById('moves').innerText !== before", moves);
        await open.Page.ClickAsync("#undo");
        await open.Page.WaitForFunctionAsync("before => document.getElementById('moves').innerText === before", moves);

        Assert.Contains("kick", moves, StringComparison.Ordinal);
        Assert.NotEmpty(found);
        Assert.StartsWith("Found of this bus", beside, StringComparison.Ordinal);
        Assert.True(written.Contains("\"delay_ms\": 2", StringComparison.Ordinal) || written.Contains("\"polarity\": \"inverted\"", StringComparison.Ordinal), written);
        Quiet(open);
    }

    [FactInBrowser]
    public async Task The_page_ends_the_bench()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);

        await open.Page.ClickAsync("#end");
        await open.Page.WaitForFunctionAsync("() => document.getElementById('words').innerText.includes('has ended')");

        // The page is told a moment before.
        Assert.True(server.Ended.WaitHandle.WaitOne(TimeSpan.FromSeconds(10)));
    }

    [FactInBrowser]
    public async Task Axe_finds_nothing_on_desktop_phone_light_and_dark()
    {
        using var session = new BenchSession(hasPair: false, hasMix: true);
        foreach (var looks in new[] { new[] { (390, false) }, [(1440, false), (1280, true), (2560, false)] })
        {
            await using var server = await BenchServer.Start(session.Chain, ReadPolicy.Default);
            await using var open = await browser.Open(server.Address, looks[0].Item1);
            await open.Page.ClickAsync("#routing g[aria-label^='Bus impact']");
            await open.Page.WaitForSelectorAsync(".lane canvas");
            foreach (var (width, isDark) in looks)
            {
                await open.Page.SetViewportSizeAsync(width, 900);
                await open.Colour(isDark);
                await open.Keep($"bench-{width}-{(isDark ? "dark" : "light")}");

                var violations = await open.Violations();
                Assert.True(violations.Length == 0, $"{width}: {string.Join("\n", violations)}");
                Assert.True(await open.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"), $"{width}: wider than the window");
            }
        }
    }

    private Task<BenchServer> Serve() => BenchServer.Start(_session.Chain, ReadPolicy.Default);

    private static async Task Allow(OpenPage open)
    {
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.WaitForFunctionAsync("() => bench.state.may_write");
    }

    [FactInBrowser]
    public async Task A_place_in_the_picture_that_keys_have_come_to_is_kept_when_a_setting_changes()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.FocusAsync("#routing g[aria-label^='Bus impact,']");

        await open.Page.EvaluateAsync("() => bench.talk.set([{ place: bench.state.buses[0].feeds[0].place, key: 'level_db', number: -7 }])");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1");

        Assert.StartsWith("Bus impact,", await open.Page.EvaluateAsync<string>("() => document.activeElement.getAttribute('aria-label') ?? ''"), StringComparison.Ordinal);
    }

    private static async Task Type(OpenPage open, string bus, string control, string value)
    {
        await open.Page.ClickAsync($"#routing g[aria-label^='Bus {bus}']");
        var box = open.Page.Locator($".setting:has(input[aria-label='{control}']) input[type=number]");
        await box.FillAsync(value);
        await box.PressAsync("Enter");
    }

    private async Task Written(string text)
    {
        for (var n = 0; n < 600 && await File.ReadAllTextAsync(_session.Chain) != text; n++)
        {
            await Task.Delay(50);
        }

        Assert.Equal(text, await File.ReadAllTextAsync(_session.Chain));
    }

    private static void Quiet(OpenPage open) => Assert.Empty(open.Complaints);
}
