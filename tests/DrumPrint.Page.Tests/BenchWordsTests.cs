using DrumPrint.Bench.Serving;
using DrumPrint.Files;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>What the bench says: where it is seen, how long it stands, and in whose words.</summary>
[Collection(Browser.Bench)]
public sealed class BenchWordsTests(Browser browser) : IDisposable
{
    // What comes seconds later comes when the test says so: the last of it.
    private const string Patient = "const later = setTimeout; window.setTimeout = (what, ms, ...all) => { if (ms < 5000) return later(what, ms, ...all); window.last = { what, ms }; return -1; };";

    private const string Position = "() => getComputedStyle(document.getElementById('words')).position";

    private readonly BenchSession _session = new();

    public void Dispose() => _session.Dispose();

    [FactInBrowser]
    public async Task A_refusal_is_seen_from_every_place_of_the_page()
    {
        foreach (var width in new[] { 1440, 390 })
        {
            await using var server = await Serve();
            await using var open = await browser.Open(server.Address, width, script: Patient);
            await Refused(open);

            await open.Page.EvaluateAsync("() => scrollTo(0, document.body.scrollHeight)");
            var isSeen = await open.Page.EvaluateAsync<bool>("() => { const box = document.getElementById('words').getBoundingClientRect(); return box.height > 10 && box.top >= 0 && box.bottom <= innerHeight; }");

            Assert.True(isSeen, $"{width}: out of sight");
            if (width < 800)
            {
                // It covers what lies at the foot for a while only, and takes no click from it.
                Assert.Equal("none", await open.Page.EvaluateAsync<string>("() => getComputedStyle(document.getElementById('words')).pointerEvents"));
                Assert.Equal("fixed", await open.Page.EvaluateAsync<string>(Position));
                Assert.InRange(await open.Page.EvaluateAsync<int>("() => { last.what(); return last.ms; }"), 5000, 10_000);
                Assert.Equal("static", await open.Page.EvaluateAsync<string>(Position));
            }
        }
    }

    [FactInBrowser]
    public async Task A_mistake_is_told_until_it_is_gone()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 300", StringComparison.Ordinal));
        await open.Page.WaitForSelectorAsync("#words.refused");
        Assert.Equal("The chain file has a mistake", await open.Text("#mistakes h2"));
        Assert.StartsWith("The chain file has a mistake", await open.Text("#words"), StringComparison.Ordinal);

        await File.WriteAllTextAsync(_session.Chain, BenchSession.Original);

        await open.Page.WaitForSelectorAsync("#words:not(.refused)");
        Assert.Equal("The chain is whole again.", await open.Text("#words"));
    }

    [FactInBrowser]
    public async Task What_the_system_did_to_the_sound_is_no_longer_told_when_it_goes_on()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");
        await open.Page.EvaluateAsync("() => bench.player.context.suspend()");
        await Said(open, "Press Play to go on");

        await open.Page.ClickAsync("#play");

        await Said(open, "The sound goes on.");
    }

    [FactInBrowser]
    public async Task A_refusal_names_settings_as_the_page_does()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await Refused(open);

        var words = await open.Text("#words");

        Assert.Contains("'close' is −20 dB, above 'open' at −30 dB", words, StringComparison.Ordinal);
        Assert.DoesNotContain("_db", words, StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task What_was_found_before_a_change_says_so_until_the_next_look_and_a_bus_lines_up_where_it_is_open()
    {
        using var session = new BenchSession(hasPair: true);
        await using var server = await BenchServer.Start(session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#look");
        await open.Page.WaitForSelectorAsync("#moves button");
        Assert.False(await open.Page.IsVisibleAsync("#found-old"));

        await open.Page.ClickAsync("#routing g[aria-label^='Bus low,']");
        await open.Page.ClickAsync("#open-found-words");
        await open.Page.ClickAsync("#open-found button[aria-label^='Write into the chain: kick']");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1");
        await open.Page.WaitForSelectorAsync("#found-old:not([hidden])");
        Assert.Equal("From before the last change: look again.", await open.Text("#found-old"));
        Assert.True(await open.Page.EvaluateAsync<bool>("() => document.getElementById('found').classList.contains('old')"));

        await open.Page.ClickAsync("#look");
        await open.Page.WaitForFunctionAsync("() => !document.getElementById('found').classList.contains('old')");
        Assert.False(await open.Page.IsVisibleAsync("#found-old"));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task What_was_found_of_a_print_stands_beside_its_bus()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);

        var beside = await open.Page.EvaluateAsync<string>("""
            async () => {
              const { createFindings } = await import('./findings.js');
              const told = {};
              const findings = createFindings({ on: (kind, listener) => { told[kind] = listener; } }, { again() {} });
              told.findings({ findings: [{ rule: 'clipping', weight: 'fault', about: '03 Impact', text: 'It clips.' }], moves: [], notes: [] });
              findings.show(bench.state, 'impact');
              return document.getElementById('open-found').textContent;
            }
            """);

        Assert.Contains("It clips.", beside, StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task Meters_fall_to_nothing_after_a_stop_and_the_clock_moves_nothing_while_it_plays()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address, 1440);
        const string Volume = "() => document.getElementById('volume').offsetWidth";
        var before = await open.Page.EvaluateAsync<int>(Volume);
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 2.2 * 48000 && document.querySelector('.strip .meter i').style.transform !== 'scaleX(0)'");
        Assert.Equal(before, await open.Page.EvaluateAsync<int>(Volume));
        Assert.Equal("2", await open.Page.InputValueAsync("#bar"));

        await open.Page.ClickAsync("#play");

        await open.Page.WaitForFunctionAsync("() => [...document.querySelectorAll('#strips .meter i, #output i')].every(bar => bar.style.transform === 'scaleX(0)')", null, new PageWaitForFunctionOptions { Timeout = 10_000 });
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task What_is_kept_and_a_look_that_is_stopped_are_told()
    {
        await using var server = await Serve();
        await using var open = await browser.Open(server.Address);
        await open.Page.ClickAsync("#keep");
        await Said(open, "Kept as state 1.");

        var words = await open.Page.EvaluateAsync<string>("""
            async () => {
              const { createFindings } = await import('./findings.js');
              const told = {};
              let words = '';
              createFindings({ on: (kind, listener) => { told[kind] = listener; }, say() {} }, { again() {}, say: text => { words = text; } });
              document.getElementById('stop-look').click();
              told.progress({ job: 'look', activity: '', part: 1 });
              return words;
            }
            """);

        Assert.Equal("Stopped looking.", words);
    }

    private Task<BenchServer> Serve() => BenchServer.Start(_session.Chain, ReadPolicy.Default);

    private static Task Said(OpenPage open, string words) => open.Page.WaitForFunctionAsync("words => document.getElementById('words').innerText.includes(words)", words);

    // A gate cannot close above where it opens.
    private static async Task Refused(OpenPage open)
    {
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.EvaluateAsync("() => bench.talk.set([{ place: bench.state.buses.find(bus => bus.name === 'high').stages[0].place, key: 'close_db', number: -20 }])");
        await open.Page.WaitForSelectorAsync("#words.refused");
    }
}
