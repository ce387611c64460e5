using DrumPrint.Bench.Serving;
using DrumPrint.Files;

namespace DrumPrint.Page.Tests;

/// <summary>The song's own mix on the bench.</summary>
[Collection(Browser.Bench)]
public sealed class BenchPartnerTests(Browser browser)
{
    // The peak of the mix in what was heard last.
    private const string Peak = "() => new Promise(done => { let left = 6; bench.player.on('place', data => { if (--left === 0) done(data.peaks.at(-1)); }); })";

    [FactInBrowser]
    public async Task It_is_muted_at_first_and_one_key_lets_it_be_heard_with_a_level_of_its_own()
    {
        using var session = new BenchSession(hasPair: false, hasMix: true);
        await using var server = await BenchServer.Start(session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address);
        await open.Page.WaitForFunctionAsync("() => !document.getElementById('partner-mute').disabled");
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 4800");
        var muted = await open.IsPressed("#partner-mute");
        var silent = await open.Page.EvaluateAsync<double>(Peak);

        await open.Page.Keyboard.PressAsync("m");
        await open.Page.WaitForTimeoutAsync(600);
        var heard = await open.Page.EvaluateAsync<double>(Peak);
        await open.Page.EvaluateAsync("() => { const f = document.getElementById('partner-fader'); f.value = '-24'; f.dispatchEvent(new Event('input')); }");
        await open.Page.WaitForTimeoutAsync(600);
        var lower = await open.Page.EvaluateAsync<double>(Peak);
        var words = await open.Page.GetAttributeAsync("#partner-fader", "aria-valuetext");
        var says = await open.Text("#partner");
        await open.Page.ClickAsync("#partner-mute");
        await open.Page.WaitForTimeoutAsync(600);

        Assert.True(muted);
        Assert.Equal(0, silent);
        Assert.Equal(0.5 * Math.Pow(10, -12 / 20.0), heard, 1e-3);
        Assert.Equal(0.5 * Math.Pow(10, -24 / 20.0), lower, 1e-3);
        Assert.Equal("−24.0 dB", words);
        Assert.Contains("it goes into no print", says, StringComparison.Ordinal);
        Assert.Equal(0, await open.Page.EvaluateAsync<double>(Peak));
        Assert.Equal(BenchSession.MixText, await File.ReadAllTextAsync(session.Chain));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task A_chain_without_one_shows_none_and_one_that_is_not_there_is_told_until_it_is()
    {
        using var session = new BenchSession();
        await using var server = await BenchServer.Start(session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address);
        Assert.True(await open.Page.IsHiddenAsync("#partner"));

        await File.WriteAllTextAsync(session.Chain, BenchSession.MixText);
        await open.Page.WaitForFunctionAsync("() => document.getElementById('partner-words').innerText.includes('there is no such file')");
        var isOff = await open.Page.IsDisabledAsync("#partner-mute");
        session.BringMix();
        await open.Page.WaitForFunctionAsync("() => !document.getElementById('partner-mute').disabled");

        Assert.True(isOff);
        Assert.Equal("", await open.Text("#partner-words"));
        Assert.Contains("mix/song.wav added", await open.Text("#words"), StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task The_limiter_holds_prints_and_mix_together()
    {
        using var session = new BenchSession(hasPair: false, hasMix: true);
        await using var server = await BenchServer.Start(session.Chain, ReadPolicy.Default);
        await using var open = await browser.Open(server.Address);
        await open.Page.WaitForFunctionAsync("() => !document.getElementById('partner-mute').disabled");
        await open.Page.EvaluateAsync("""
            () => {
              for (const [id, value] of [['partner-fader', '0'], ['volume', '0']]) { const f = document.getElementById(id); f.value = value; f.dispatchEvent(new Event('input')); }
              for (const strip of document.querySelectorAll('.strips input[type=range]')) { strip.value = '6'; strip.dispatchEvent(new Event('input')); }
              window.most = 0;
              bench.player.on('place', data => { window.most = Math.max(window.most, data.peak); });
            }
            """);
        await open.Page.ClickAsync("#partner-mute");
        await open.Page.ClickAsync("#play");
        await open.Page.WaitForFunctionAsync("() => bench.player.frame > 2 * 48000");

        Assert.InRange(await open.Page.EvaluateAsync<double>("() => window.most"), 0.71, 0.98);
    }
}
