using System.Diagnostics;
using DrumPrint.Delivering;

namespace DrumPrint.Page.Tests;

/// <summary>The page of a delivered folder, opened from the disk as whoever received it does.</summary>
[Collection(Browser.Pages)]
public sealed class ReceiverPageTests(Browser browser) : IDisposable
{
    private const int Seconds = 12;
    private const int Moves = 100;
    private const double UnderFaderDb = -20;

    // What is looked at, after a little that was under way.
    private const int Heard = 9600;
    private const int UnderWay = 2000;

    // Hears what the page gives to the loudspeakers, sample by sample.
    private const string Tap = """
        (() => {
          const connect = AudioNode.prototype.connect;
          window.taken = [];
          window.isTaking = false;
          AudioNode.prototype.connect = function (to, ...rest) {
            if (to instanceof AudioDestinationNode && !window.hasTap) {
              window.hasTap = true;
              const source = `registerProcessor('tap', class extends AudioWorkletProcessor { process([input]) { if (input.length > 0) this.port.postMessage(input[0].slice()); return true; } });`;
              const url = `data:text/javascript,${encodeURIComponent(source)}`;
              this.context.audioWorklet.addModule(url).then(() => {
                const tap = new AudioWorkletNode(this.context, 'tap', { numberOfOutputs: 0 });
                tap.port.onmessage = ({ data }) => { if (window.isTaking) window.taken.push(...data); };
                connect.call(this, tap);
              });
            }
            return connect.call(this, to, ...rest);
          };
        })();
        """;

    private readonly DeliveredSession _session = new(Seconds);

    public void Dispose() => _session.Dispose();

    [FactInBrowser]
    public async Task All_files_stay_in_step_to_the_sample_after_a_hundred_solos_mutes_and_jumps()
    {
        await using var open = await Opened(script: Tap);
        var begun = Stopwatch.StartNew();
        await open.Page.ClickAsync("#listen");
        await open.Page.WaitForFunctionAsync("() => Number(document.getElementById('position').value) > 0");
        await File.WriteAllTextAsync(Path.Combine(Browser.Kept, "receiver-start.txt"), FormattableString.Invariant($"{begun.Elapsed.TotalSeconds:0.00} s from the click to the first place told\n"));
        var random = new Random(5);
        for (var n = 0; n < Moves; n++)
        {
            switch (random.Next(4))
            {
                case 0: await Twice(open, $"[data-number='{random.Next(1, 4)}'] button:has-text('Solo')"); break;
                case 1: await Twice(open, $"[data-number='{random.Next(1, 4)}'] button:has-text('Mute')"); break;
                default: await Jump(open, random.NextDouble() * (Seconds - 5)); break;
            }

            // Now and then the next comes before this one is heard.
            await open.Page.WaitForTimeoutAsync(random.Next(10, 120));
        }

        await Jump(open, 2);
        await open.Page.UncheckAsync("#match");
        await open.Page.WaitForTimeoutAsync(300);
        await Take(open);
        await Taken(open, UnderWay + Heard);
        await open.Page.Keyboard.PressAsync("2");
        var files = await open.Page.EvaluateAsync<int>("() => taken.length");
        await Taken(open, files + (2 * Heard));
        var taken = await open.Page.EvaluateAsync<double[]>("() => { isTaking = false; return taken; }");

        // How often the disk was late is written down, not asserted: on a busy machine that says more of the machine.
        await File.WriteAllTextAsync(Path.Combine(Browser.Kept, "receiver-late.txt"), $"{await open.Page.GetAttributeAsync("html", "data-starved")} frames late in {begun.Elapsed.TotalSeconds:0} s\n");

        var rough = DeliveredSession.Left(_session.PathOf(DeliveredKind.Rough));
        var first = Place(rough, taken.AsSpan(UnderWay, Heard));
        var then = Place(rough, taken.AsSpan(files + Heard, Heard));
        Assert.True(first.LeftDb < -100, $"{first.LeftDb} dB are left between the files and the rough");
        Assert.True(then.LeftDb < -100, $"{then.LeftDb} dB are left between what is heard of the rough and the rough");
        Assert.Equal(files + Heard - UnderWay, then.Frame - first.Frame);
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Two_mono_files_of_a_stereo_sound_have_one_fader_and_play_as_the_stereo_file_does()
    {
        using var split = new DeliveredSession(Seconds, splitsStereo: true);
        await using var open = await browser.Open(split.Page, 1280, false, Tap);
        await open.Page.SetInputFilesAsync("#folder", split.Folder);
        await open.Page.WaitForFunctionAsync("() => document.getElementById('found').textContent !== ''");
        Assert.Equal(3, await open.Page.Locator("#strips > li").CountAsync());
        Assert.Equal("All 6 sound files are here.", await open.Text("#found"));

        await open.Page.ClickAsync("#listen");
        await open.Page.UncheckAsync("#match");
        await Jump(open, 2);
        await open.Page.WaitForTimeoutAsync(600);
        await Take(open);
        await Taken(open, UnderWay + Heard);
        var taken = await open.Page.EvaluateAsync<double[]>("() => { isTaking = false; return taken; }");

        // The left ear hears the left file of the rough, and nothing of the right.
        var left = Place(DeliveredSession.Left(split.PathOf(DeliveredKind.Rough)), taken.AsSpan(UnderWay, Heard));
        Assert.True(left.LeftDb < -100, $"{left.LeftDb} dB are left");
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task At_the_end_it_stops_goes_to_the_start_and_nothing_of_the_start_is_heard()
    {
        await using var open = await Opened(script: Tap);
        await open.Page.ClickAsync("#listen");

        // What plays is taken; so nothing taken later means that nothing plays.
        await Take(open);
        await Taken(open, Heard);
        await Jump(open, Seconds - 0.6);
        await open.Page.WaitForFunctionAsync("() => document.getElementById('listen').textContent === 'Listen'");
        await Take(open);
        await open.Page.WaitForTimeoutAsync(400);
        var after = await open.Page.EvaluateAsync<double[]>("() => { isTaking = false; return taken; }");

        Assert.Equal("0", await open.Page.InputValueAsync("#position"));
        Assert.All(after, sample => Assert.Equal(0, sample));

        await open.Page.ClickAsync("#listen");
        await open.Page.WaitForFunctionAsync("() => Number(document.getElementById('position').value) > 0.2");
        Assert.Equal("Stop", await open.Text("#listen"));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Every_byte_is_checked_and_the_verdict_is_plain()
    {
        await using var whole = await Opened();
        await whole.Page.WaitForFunctionAsync("() => document.getElementById('arrived').textContent.startsWith('All')");
        Assert.Equal($"All {_session.Manifest.Files.Count - 4} files are as they were delivered, to the last byte.", await whole.Text("#arrived"));
        Assert.Equal("All 6 sound files are here.", await whole.Text("#found"));

        var print = Path.Combine(_session.Folder, "02_Snare_Slack_v1.wav");
        var bytes = await File.ReadAllBytesAsync(print);
        bytes[^4000] ^= 1;
        await File.WriteAllBytesAsync(print, bytes);
        await using var changed = await Opened();
        await changed.Page.WaitForFunctionAsync("() => document.getElementById('arrived').textContent.startsWith('Not')");
        Assert.Equal("Not as delivered: 02_Snare_Slack_v1.wav. Ask for it again.", await changed.Text("#arrived"));
    }

    [FactInBrowser]
    public async Task A_file_that_is_not_there_is_named_and_the_others_are_heard()
    {
        File.Delete(Path.Combine(_session.Folder, "03_Room_Slack_v1.wav"));
        await using var open = await Opened();

        Assert.Equal("5 of 6 sound files can be heard: 03_Room_Slack_v1.wav is not there.", await open.Text("#found"));
        Assert.True(await open.Page.IsEnabledAsync("#listen"));
    }

    [FactInBrowser]
    public async Task It_starts_silent_and_low_asks_nothing_of_the_network_and_says_what_faders_do()
    {
        await using var open = await Opened();
        Assert.Equal("−20 dB", await open.Text("#volume-out"));
        Assert.Equal("Listen", await open.Text("#listen"));
        Assert.Equal("Every fader at 0: together the files are the rough.", await open.Text("#unity-words"));

        await open.Page.EvaluateAsync("() => { const fader = document.querySelector('[data-number=\"1\"] input'); fader.value = '-6'; fader.dispatchEvent(new Event('input')); }");
        Assert.Equal("Faders were moved: this is no longer the rough.", await open.Text("#unity-words"));
        await open.Page.ClickAsync("#unity");
        Assert.Equal("Every fader at 0: together the files are the rough.", await open.Text("#unity-words"));
        Assert.All(open.Requests, url => Assert.Matches("^(file|blob|data):", url));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Axe_finds_nothing_on_desktop_phone_light_and_dark()
    {
        foreach (var looks in new[] { new[] { ("receiver-phone", 390, true) }, [("receiver-desktop", 1280, false), ("receiver-dark", 1280, true), ("receiver-wide", 2560, false)] })
        {
            await using var open = await Opened(looks[0].Item2);
            await open.Page.WaitForFunctionAsync("() => document.getElementById('arrived').textContent.startsWith('All')");
            await open.Page.ClickAsync("[data-number='2'] button:has-text('Solo')");
            foreach (var (name, width, isDark) in looks)
            {
                await open.Page.SetViewportSizeAsync(width, 900);
                await open.Colour(isDark);
                await open.Keep(name);
                Assert.Empty(await open.Violations());
                Assert.False(await open.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth > innerWidth"), $"{name} is wider than its window");
            }
        }
    }

    private async Task<OpenPage> Opened(int width = 1280, bool isDark = false, string? script = null)
    {
        var open = await browser.Open(_session.Page, width, isDark, script);
        await open.Page.SetInputFilesAsync("#folder", _session.Folder);
        await open.Page.WaitForFunctionAsync("() => document.getElementById('found').textContent !== ''");
        return open;
    }

    private static async Task Twice(OpenPage open, string button)
    {
        await open.Page.ClickAsync(button);
        await open.Page.WaitForTimeoutAsync(40);
        await open.Page.ClickAsync(button);
    }

    private static Task Take(OpenPage open) => open.Page.EvaluateAsync("() => { taken = []; isTaking = true; }");

    private static Task Taken(OpenPage open, int samples) => open.Page.WaitForFunctionAsync("samples => taken.length >= samples", samples);

    private static Task Jump(OpenPage open, double seconds) => open.Page.EvaluateAsync("s => { const place = document.getElementById('position'); place.value = s; place.dispatchEvent(new Event('input')); }", seconds);

    // Where a stretch stands in the rough, and what is left of it there.
    private static (int Frame, double LeftDb) Place(float[] rough, ReadOnlySpan<double> heard)
    {
        var gain = Math.Pow(10, UnderFaderDb / 20);
        var (best, least) = (0, double.MaxValue);
        for (var at = 0; at + heard.Length <= rough.Length; at++)
        {
            var apart = 0.0;
            for (var n = 0; n < 400 && apart < least; n++)
            {
                apart += Math.Abs(heard[n] - (gain * rough[at + n]));
            }

            if (apart < least)
            {
                (best, least) = (at, apart);
            }
        }

        var (left, all) = (0.0, 0.0);
        for (var n = 0; n < heard.Length; n++)
        {
            left = Math.Max(left, Math.Abs(heard[n] - (gain * rough[best + n])));
            all = Math.Max(all, Math.Abs(heard[n]));
        }

        return (best, 20 * Math.Log10(left / all));
    }
}
