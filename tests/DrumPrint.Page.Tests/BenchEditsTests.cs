using System.Diagnostics;
using System.Globalization;
using System.Text;
using DrumPrint.Bench.Serving;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using Microsoft.Playwright;
using Xunit.Abstractions;

namespace DrumPrint.Page.Tests;

/// <summary>Random edits by the page's own controls, and all of them taken back. <c>DRUMPRINT_PAGE_EDITS</c> says how many, <c>DRUMPRINT_PAGE_SEED</c> which.</summary>
[Collection(Browser.Bench)]
public sealed class BenchEditsTests(Browser browser, ITestOutputHelper output) : IDisposable
{
    private const int UsualEdits = 40;

    // Comments in every corner, tabs, odd breaks, two kinds of line ends, numbers as people write them, and no line end at the end.
    private const string Odd = """
        // The kit, as it was left at night.
        {"chain":1,  /* one */ "song":
        	{ "title": "Harbour Lights", "code": "Harbour", "rate_hz": 48000,
          "tempo": "tempo.json" // four bars
        },
          "tracks": { "low drum": "raw/low.wav","high drum":    "raw/high.wav" , },
          "buses": {
            "low":    { "from": { "low drum": -3.0 }, // as it was
        		"through": [ /* nothing, then */ { "gate": {"open_db":-30,
                     "hold_ms": 60.50, "close_db":-40, "key_high_pass_hz" : 80 } }, { "saturate": { } } ] },
            "high": { "through":[{"limit":{}},{ "hits": { "begin_db": 3 /* a bit */, } },], "from": { "high drum": { "level_db": -5.25, "pan_pct": 1e1 } } },


            "impact": { "from": { "low": -0,
                "high"  :-1.50 }, "through": [
              { "eq": { "bands": [ { "low_shelf": { "freq_hz": 90, "gain_db": 5 } }, { "bell": { "gain_db": -2, "freq_hz": 4.2e2 } } ] } }, // tone
              { "compress": { "threshold_db": -34, "ratio": 10, "attack_ms": 3, "release_ms": 70, "make_up_db": 9, "key_high_pass_hz": 1e2, "key": "low" } },
              { "bands": { "split_hz": 150, "in": [ { "low": { "level_db": -1, "through": [ { "compress": { "threshold_db": -28 } } ] } } ] } },
              { "dynamic_eq": { "bands": [ { "bell": { "freq_hz": 180, "q": 4, "threshold_db": -30 } } ] } } ] } },
          "prints": [
            { "number": 1, "name": "Low", "bus": "low", "level_db": -3 }, { "number": 2,
              "name": "High", "bus": "high" }, /* as loud as it comes */
            { "level_db": -9.0, "number": 3, "name": "Impact", "bus": "impact" } ],
          "drum_bus": { "through": [ { "compress": { "threshold_db": -18, "ratio": 2 } } ] } } // the end
        """;

    private readonly BenchSession _session = new();

    public void Dispose() => _session.Dispose();

    [FactInBrowser]
    public async Task Random_edits_by_every_kind_of_control_taken_back_leave_the_file_byte_for_byte_as_it_was()
    {
        var edits = Number("DRUMPRINT_PAGE_EDITS", UsualEdits);
        var original = Encoding.UTF8.GetBytes(Odd.ReplaceLineEndings("\n").Replace("// four bars\n", "// four bars\r\n", StringComparison.Ordinal).Replace("{ } } ] },\n", "{ } } ] },\r\n", StringComparison.Ordinal));
        await File.WriteAllBytesAsync(_session.Chain, original);
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        var hand = new RandomHand(open.Page, new CounterNoise((ulong)Number("DRUMPRINT_PAGE_SEED", 15)));
        var clock = Stopwatch.StartNew();

        await hand.Begin();

        // Until every kind of control has come up too.
        while (hand.Written < edits || (hand.Kinds.Count < RandomHand.AllKinds.Count && hand.Tries < 4 * UsualEdits))
        {
            await hand.Edit();
        }

        var edited = await File.ReadAllBytesAsync(_session.Chain);
        var history = await open.Page.EvaluateAsync<int>("() => bench.state.history.length");
        var undone = await hand.TakeAllBack();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{hand.Written} edits written of {hand.Tries} tries in {clock.Elapsed.TotalSeconds:0} s: {string.Join(", ", hand.Kinds.OrderBy(k => k.Key, StringComparer.Ordinal).Select(k => $"{k.Key} {k.Value}"))}; refused {hand.Refused}; taken back {undone}"));

        Assert.NotEqual(original, edited);
        Assert.Equal(hand.Written, history);
        Assert.Equal(hand.Written, undone);
        Assert.Equal(original, await File.ReadAllBytesAsync(_session.Chain));
        Assert.True(await open.Page.IsDisabledAsync("#undo"));
        Assert.True(hand.Kinds.Count == RandomHand.AllKinds.Count, $"never used: {string.Join(", ", RandomHand.AllKinds.Except(hand.Kinds.Keys))}");
        Assert.Empty(open.Complaints);
    }

    // A tap on the pan of a centred track must not throw it to one side.
    [FactInBrowser]
    public async Task What_is_not_set_is_nudged_from_the_middle_where_it_goes_both_ways()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus low,']");
        var pan = open.Page.Locator("#open .setting:has(input[aria-label='pan of from low drum'])");

        var slider = await pan.Locator("input[type=range]").EvaluateAsync<double>("r => r.value / r.max");
        await pan.Locator("input[type=number]").FocusAsync();
        await open.Page.Keyboard.PressAsync("ArrowUp");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1");

        Assert.Equal(0.5, slider, 0.001);
        Assert.Equal("1", await pan.Locator("input[type=number]").InputValueAsync());
        Assert.Contains("\"pan_pct\": 1", await File.ReadAllTextAsync(_session.Chain), StringComparison.Ordinal);
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Many_steps_by_key_on_a_slider_are_heard_at_once_and_written_once()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact,']");
        await open.Page.EvaluateAsync("() => { window.tried = 0; bench.talk.on('changed', m => { if (m.by === 'try') tried++; }); }");
        var slider = open.Page.Locator("#open input[type=range][aria-label='threshold of compress']");

        await slider.FocusAsync();
        for (var n = 0; n < 5; n++)
        {
            await open.Page.Keyboard.PressAsync("ArrowRight");
        }

        await open.Page.WaitForFunctionAsync("() => bench.state.history.length > 0");
        await open.Page.WaitForTimeoutAsync(700);
        Assert.Equal(1, await open.Page.EvaluateAsync<int>("() => bench.state.history.length"));
        Assert.InRange(await open.Page.EvaluateAsync<int>("() => tried"), 1, 5);

        // Who goes away before they rest has set it too.
        await slider.PressAsync("ArrowRight");
        await open.Page.Keyboard.PressAsync("Tab");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 2", null, new PageWaitForFunctionOptions { Timeout = 10_000 });
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task What_is_being_typed_stays_when_the_page_learns_something_new_meanwhile()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact,']");
        var threshold = open.Page.Locator("#open .setting:has(input[aria-label='threshold of compress']) input[type=number]");

        await threshold.SelectTextAsync();
        await open.Page.Keyboard.TypeAsync("-2");
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'keep' })");
        await open.Page.WaitForFunctionAsync("() => bench.state.kept.length > 0");
        await open.Page.Keyboard.TypeAsync("1");
        await open.Page.Keyboard.PressAsync("Enter");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1");

        Assert.Equal("-21", await threshold.InputValueAsync());
        Assert.Contains("\"threshold_db\": -21,", await File.ReadAllTextAsync(_session.Chain), StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task What_is_no_number_leaves_the_setting_and_the_number_as_they_were()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact,']");
        await open.Page.EvaluateAsync("""
            () => {
              const stage = bench.state.buses.find(bus => bus.name === 'impact').stages.find(stage => stage.settings.some(s => s.kind === 'number' && s.left_out));
              const setting = stage.settings.find(s => s.kind === 'number' && s.left_out);
              bench.talk.set([{ place: stage.place, key: setting.key, number: Math.round((setting.least + setting.most) / 2) }]);
            }
            """);
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1");
        var text = await File.ReadAllTextAsync(_session.Chain);
        var boxes = open.Page.Locator("#open .setting:has(button.none:enabled) input[type=number]");
        var number = await boxes.First.InputValueAsync(new LocatorInputValueOptions { Timeout = 5000 });

        await boxes.First.SelectTextAsync();
        await open.Page.Keyboard.TypeAsync("1-2");
        await open.Page.Keyboard.PressAsync("Enter");
        await open.Page.WaitForTimeoutAsync(300);

        Assert.NotEqual("", number);
        Assert.Equal(number, await boxes.First.InputValueAsync());
        Assert.Equal(text, await File.ReadAllTextAsync(_session.Chain));
    }

    [FactInBrowser]
    public async Task Who_comes_to_a_number_by_the_tab_key_types_another_over_it()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact,']");
        var setting = open.Page.Locator("#open .setting:has(input[aria-label='threshold of compress'])");

        // Not every browser marks what the key has come to.
        await setting.Locator("input[type=number]").FocusAsync();
        await open.Page.EvaluateAsync("""() => document.activeElement.dispatchEvent(new KeyboardEvent('keyup', { key: 'Tab', bubbles: true }))""");
        await open.Page.Keyboard.TypeAsync("-33.5");
        await open.Page.Keyboard.PressAsync("Enter");
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length === 1");

        Assert.Contains("\"threshold_db\": -33.5,", await File.ReadAllTextAsync(_session.Chain), StringComparison.Ordinal);
    }

    // As everywhere, two clicks take hold of the number, so that another can be typed over it.
    [FactInBrowser]
    public async Task Two_clicks_into_a_number_change_nothing_and_two_on_its_slider_go_back_to_the_default()
    {
        await using var server = await BenchServer.Start(_session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address, 1440);
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact,']");
        var ratio = open.Page.Locator("#open .setting:has(input[aria-label='ratio of compress'])");
        var before = await File.ReadAllTextAsync(_session.Chain);

        await ratio.Locator("input[type=number]").DblClickAsync();
        await open.Page.WaitForTimeoutAsync(300);
        Assert.Equal(before, await File.ReadAllTextAsync(_session.Chain));

        await ratio.Locator("input[type=range]").DblClickAsync();
        await open.Page.WaitForFunctionAsync("() => bench.state.history.length > 0 && document.querySelector(`[aria-label='ratio of compress']`).closest('.setting').classList.contains('own') === false");
        Assert.Equal(await ratio.Locator("input[type=number]").InputValueAsync(), await ratio.Locator("input[type=number]").EvaluateAsync<string>("_ => String(bench.state.buses.find(b => b.name === 'impact').stages[1].settings.find(s => s.key === 'ratio').default_number)"));
    }

    private static int Number(string name, int usual) => int.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : usual;
}
