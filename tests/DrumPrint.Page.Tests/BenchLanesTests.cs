using System.Globalization;
using System.Text.RegularExpressions;
using DrumPrint.Bench.Serving;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using DrumPrint.Live;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>What the open bus does over the song, on a snare of which every hit is known.</summary>
[Collection(Browser.Bench)]
public sealed class BenchLanesTests : IDisposable
{
    private const int Rate = 48000;
    private const double Soft = 0.01;

    // What a pixel or two of the picture are, in seconds.
    private const double Pixels = 0.02;

    // Four bars of 4/4 at 120: two hits in a second, three of them too soft for the gate.
    private static readonly int[] SoftHits = [3, 7, 12];

    private const string Text = """
        { "chain": 1,
          "song": { "title": "Harbour Lights", "code": "Harbour", "rate_hz": 48000, "tempo": "tempo.json" },
          "tracks": { "snare": "raw/snare.wav", "low drum": "raw/low.wav" },
          "buses": {
            "snare gate": { "from": { "snare": 0 }, "through": [ { "gate": { "open_db": -30, "hold_ms": 60, "release_ms": 40, "look_ahead_ms": 2 } } ] },
            "low": { "from": { "low drum": -3 } },
            "impact": { "from": { "snare gate": 0, "low": -3 }, "through": [ { "compress": { "threshold_db": -30, "ratio": 4, "attack_ms": 3 } }, { "limit": { "ceiling_dbtp": -3 } } ] } },
          "prints": [ { "number": 1, "name": "Impact", "bus": "impact" } ],
          "drum_bus": { "through": [ { "compress": { "threshold_db": -18, "ratio": 2 } } ] } }
        """;

    private readonly BenchSession _session = new();
    private readonly Browser _browser;

    public BenchLanesTests(Browser browser)
    {
        _browser = browser;
        var noise = new CounterNoise(5);
        _session.Write("raw/snare.wav", n =>
        {
            var (hit, since) = ((n - (Rate / 4)) / (Rate / 2), (n - (Rate / 4)) % (Rate / 2));
            return n < Rate / 4 ? 0 : (SoftHits.Contains(hit) ? Soft : 0.5) * Math.Clamp(3 * noise.Bipolar(since), -1, 1) * Math.Exp(-since / 1500.0);
        });
        File.WriteAllText(_session.Chain, Text);
    }

    public void Dispose() => _session.Dispose();

    [FactInBrowser]
    public async Task A_gate_tells_how_often_it_opens_and_which_hits_it_loses()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "snare gate");
        var words = await open.Text(".lane .tells");

        Assert.Contains("Opens 13 times", words, StringComparison.Ordinal);
        Assert.Contains("3 of 16 hits are lost", words, StringComparison.Ordinal);

        // As much of the picture is filled as the sentence says.
        var said = double.Parse(words[(words.IndexOf("is open", StringComparison.Ordinal) + 8)..words.IndexOf(" %", StringComparison.Ordinal)], CultureInfo.InvariantCulture) / 100;
        Assert.InRange(said, 0.1, 0.9);
        Assert.Equal(said, await Share(open, "--d", 0.1), 0.02);
        Assert.Equal(SoftHits.Length, await Marks(open));
    }

    [FactInBrowser]
    public async Task A_lost_hit_is_gone_to_by_key_and_by_its_mark_and_told_by_bar_and_beat()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "snare gate");

        await open.Page.FocusAsync(".lost button >> nth=1");
        await open.Page.Keyboard.PressAsync("Enter");
        var first = await open.Text(".lost output");
        var there = await Now(open);
        await open.Page.Keyboard.PressAsync("Enter");
        var second = await open.Text(".lost output");
        var then = await Now(open);
        await open.Page.ClickAsync(".lost button >> nth=0");
        var back = await Now(open);

        // Hit 3 lies at 1.75 s, a tenth of a second of run-up before it; a beat is half a second.
        Assert.Contains("Lost hit 1 of 3: bar 1, beat 4", first, StringComparison.Ordinal);
        Assert.Contains("peak −40.0 dBFS", first, StringComparison.Ordinal);
        Assert.Equal(1.65, there, 0.02);
        Assert.Contains("Lost hit 2 of 3: bar 2, beat 4", second, StringComparison.Ordinal);
        Assert.Equal(3.65, then, 0.02);
        Assert.Equal(1.65, back, 0.02);

        var box = (await open.Page.Locator(".lane canvas").BoundingBoxAsync())!;
        await open.Page.Locator(".lane canvas").ClickAsync(new LocatorClickOptions { Position = new Position { X = (float)(box.Width * 6.25 / 8) + 4, Y = box.Height - 4 } });
        Assert.Equal(6.15, await Now(open), 0.02);
        Assert.Contains("Lost hit 3 of 3", await open.Text(".lost output"), StringComparison.Ordinal);
        await open.Page.Locator(".lane canvas").ClickAsync(new LocatorClickOptions { Position = new Position { X = box.Width / 2, Y = 5 } });
        Assert.Equal(4, await Now(open), 0.02);
    }

    [FactInBrowser]
    public async Task Each_processor_that_moves_the_gain_has_a_lane_with_its_most_and_its_scale()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "impact");

        Assert.Equal("What impact does over the song", await open.Text("#lanes-title"));
        Assert.Equal(["compress", "limit"], await open.Page.Locator(".lane h3").AllInnerTextsAsync());
        var words = await open.Text(".lane .tells >> nth=0");
        Assert.Matches(@"Turns down by \d+\.\d dB at most, at bar \d, beat \d\.$", words);
        Assert.InRange(await Share(open, "--a", 0.02), 0.1, 1);

        await open.Page.Locator("#routing g[aria-label^='The drum bus']").ClickAsync();
        Assert.Equal(["compress"], await open.Page.Locator(".lane h3").AllInnerTextsAsync());
        await open.Page.Locator("#routing g[aria-label^='Bus low,']").ClickAsync();
        Assert.Equal("Nothing in it moves the gain.", await open.Text("#lanes-words"));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task What_is_open_and_what_is_lost_stand_where_they_happen()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "snare gate");

        // Hits lie at 0.25 s and every half a second after it; the gate opens 2 ms before and never late.
        var loud = Enumerable.Range(0, 16).Except(SoftHits).Select(n => 0.25 + (0.5 * n)).ToArray();
        var opened = await Stretches(open, "--d", 0.1);
        Assert.Equal(loud.Length, opened.Length);
        Assert.All(opened.Zip(loud), o => Assert.Equal(o.Second, o.First[0], Pixels));

        // Nothing is open where a hit is lost, and its mark stands there.
        var lost = await Stretches(open, "--b", 0.95);
        Assert.Equal(SoftHits.Length, lost.Length);
        Assert.All(lost.Zip(SoftHits), l => Assert.Equal(0.25 + (0.5 * l.Second), (l.First[0] + l.First[1]) / 2, Pixels));
        Assert.DoesNotContain(opened, o => SoftHits.Any(n => o[0] < 0.25 + (0.5 * n) && o[1] > 0.25 + (0.5 * n)));
    }

    [FactInBrowser]
    public async Task The_curve_hangs_as_deep_as_the_gain_goes_down_at_every_place()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "impact");
        var line = SongOutline.Of(ChainReader.Read(_session.Chain), 1200).Lines.First(l => l.Bus == "impact");
        var down = line.Lowest.Select(g => -20 * Math.Log10(g)).ToArray();
        var lowerEdge = double.Parse(Regex.Match((await open.Page.GetAttributeAsync(".lane canvas", "aria-label"))!, @"(\d+) dB down$").Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.InRange(lowerEdge, down.Max(), 2.1 * down.Max());

        var depths = await Depths(open);

        // A pixel is a little less or more than a column; the label of the lower edge stands over the beginning.
        for (var x = depths.Length / 10; x < depths.Length - 2; x++)
        {
            var there = (int)((double)x / depths.Length * down.Length);
            var near = down[Math.Max(0, there - 2)..Math.Min(down.Length, there + 3)];
            Assert.InRange(depths[x] * lowerEdge, near.Min() - (0.06 * lowerEdge), near.Max() + (0.06 * lowerEdge));
        }

        Assert.InRange(down.Max() - down.Min(), 3, 64);
    }

    [FactInBrowser]
    public async Task After_a_change_it_says_that_it_is_from_before_until_it_is_drawn_again()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "impact");
        var before = await open.Text(".lane .tells >> nth=0");
        await open.Page.EvaluateAsync("() => bench.talk.say({ kind: 'allow' })");
        await open.Page.EvaluateAsync("() => bench.talk.set([{ place: ['buses', 'impact', 'through', '0', 'compress'], key: 'threshold_db', number: -50 }])");

        await open.Page.WaitForFunctionAsync("() => document.getElementById('lanes-words').innerText.includes('from before the last change')");
        Assert.Equal(before, await open.Text(".lane .tells >> nth=0"));

        // A page that comes anew is told so too.
        await open.Page.ReloadAsync();
        await open.Page.WaitForFunctionAsync("() => document.getElementById('lanes-words').innerText.includes('from before the last change')");
        await open.Page.ClickAsync("#routing g[aria-label^='Bus impact,']");
        await open.Page.WaitForFunctionAsync("() => !document.getElementById('lanes-words').innerText.includes('before')");
        Assert.NotEqual(before, await open.Text(".lane .tells >> nth=0"));
        Assert.False(await open.Page.EvaluateAsync<bool>("() => document.getElementById('lanes').classList.contains('old')"));
    }

    [FactInBrowser]
    public async Task What_cannot_be_drawn_is_told()
    {
        await using var server = await Serve();
        await using var open = await Open(server, "impact");
        File.Delete(Path.Combine(Path.GetDirectoryName(_session.Chain)!, "raw", "low.wav"));
        await File.WriteAllTextAsync(_session.Chain, Text.Replace("\"ratio\": 4", "\"ratio\": 3", StringComparison.Ordinal));

        await open.Page.WaitForFunctionAsync("() => document.getElementById('lanes-words').innerText.includes('could not be drawn')");

        var words = await open.Text("#lanes-words");
        Assert.Contains("before the last change", words, StringComparison.Ordinal);
        Assert.Contains("low.wav", words, StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task Axe_finds_nothing_in_it_light_dark_forced_narrow_and_wide()
    {
        foreach (var looks in new[] { new[] { (390, false, false) }, [(1440, true, false), (1280, false, true), (2560, false, false)] })
        {
            await using var server = await Serve();
            await using var open = await _browser.Open(server.Address, looks[0].Item1);
            await Show(open, "snare gate");
            await open.Page.ClickAsync(".lost button >> nth=1");
            foreach (var (width, isDark, isForced) in looks)
            {
                await open.Page.SetViewportSizeAsync(width, 900);
                await open.Colour(isDark, isForced);
                await open.Keep($"bench-lanes-{width}{(isDark ? "-dark" : "")}{(isForced ? "-forced" : "")}");

                var violations = await open.Violations();
                Assert.True(violations.Length == 0, $"{width}: {string.Join("\n", violations)}");
                Assert.True(await open.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"), $"{width}: wider than the window");
            }
        }
    }

    // Each change gives up what was begun before.
    [Fact]
    public void Of_two_that_were_begun_only_the_last_is_drawn()
    {
        using var drawn = new ManualResetEventSlim();
        List<string> told = [];
        using var outliner = new Outliner(ReadPolicy.Default, 0, () => true, () => false, (_, _) => { }, (chain, message) =>
        {
            lock (told)
            {
                told.Add($"{chain.Song.Title} {message.Problem}");
            }

            drawn.Set();
        });
        var chain = ChainReader.Read(_session.Chain);
        foreach (var title in new[] { "first", "second", "third" })
        {
            outliner.Begin(chain with { Song = chain.Song with { Title = title } }, title == "third" ? TimeSpan.FromMilliseconds(300) : TimeSpan.Zero);
        }

        Assert.True(drawn.Wait(TimeSpan.FromMinutes(1)));
        Thread.Sleep(200);
        Assert.Equal(["third "], told);
    }

    [Fact]
    public void It_rests_while_a_change_is_waited_for_and_tells_how_far_it_is()
    {
        using var drawn = new ManualResetEventSlim();
        var isAsked = true;
        List<double> parts = [];
        using var outliner = new Outliner(ReadPolicy.Default, 0, () => false, () => Volatile.Read(ref isAsked), (_, part) => parts.Add(part), (_, _) => drawn.Set());

        outliner.Begin(ChainReader.Read(_session.Chain), TimeSpan.Zero);

        Assert.False(drawn.Wait(TimeSpan.FromSeconds(1.2)));
        Assert.Empty(parts);
        Volatile.Write(ref isAsked, false);
        Assert.True(drawn.Wait(TimeSpan.FromMinutes(1)));
        Assert.Equal(parts.Order(), parts);
        Assert.InRange(parts[0], 0, 1);
    }

    [FactInBrowser]
    public async Task The_page_says_how_far_the_picture_is()
    {
        await using var server = await Serve();
        await using var open = await _browser.Open(server.Address);

        var words = await open.Page.EvaluateAsync<string>("""
            async () => {
              const { createLanes } = await import('./lanes.js');
              const lanes = createLanes({});
              lanes.drawing(.4);
              lanes.show(bench.state, '');
              return document.getElementById('lanes-words').textContent;
            }
            """);

        Assert.Equal("Being drawn … 40 %", words);
    }

    private Task<BenchServer> Serve() => BenchServer.Start(_session.Chain, ReadPolicy.Default);

    private async Task<OpenPage> Open(BenchServer server, string bus)
    {
        var open = await _browser.Open(server.Address);
        await Show(open, bus);
        return open;
    }

    private static async Task Show(OpenPage open, string bus)
    {
        await open.Page.ClickAsync($"#routing g[aria-label^='Bus {bus},']");
        await open.Page.WaitForSelectorAsync(".lane canvas");
    }

    private static Task<double> Now(OpenPage open) => open.Page.EvaluateAsync<double>("() => bench.player.frame / bench.state.rate_hz");

    // How much of a row of the first lane has, by and large, a colour.
    private static Task<double> Share(OpenPage open, string colour, double height) => open.Page.EvaluateAsync<double>("""
        ([name, height]) => {
          const canvas = document.querySelector('.lane canvas');
          const probe = document.createElement('canvas').getContext('2d');
          probe.fillStyle = getComputedStyle(document.documentElement).getPropertyValue(name);
          probe.fillRect(0, 0, 1, 1);
          const want = probe.getImageData(0, 0, 1, 1).data;
          const row = canvas.getContext('2d').getImageData(0, Math.round(canvas.height * height), canvas.width, 1).data;
          let count = 0;
          for (let i = 0; i < row.length; i += 4) if (row[i + 3] > 40 && Math.abs(row[i] - want[0]) + Math.abs(row[i + 1] - want[1]) + Math.abs(row[i + 2] - want[2]) < 60) count++;
          return count / canvas.width;
        }
        """, new object[] { colour, height });

    // From when to when a row of the first lane has a colour, in seconds.
    private static Task<double[][]> Stretches(OpenPage open, string colour, double height) => open.Page.EvaluateAsync<double[][]>("""
        ([name, height]) => {
          const canvas = document.querySelector('.lane canvas');
          const probe = document.createElement('canvas').getContext('2d');
          probe.fillStyle = getComputedStyle(document.documentElement).getPropertyValue(name);
          probe.fillRect(0, 0, 1, 1);
          const want = probe.getImageData(0, 0, 1, 1).data;
          const row = canvas.getContext('2d').getImageData(0, Math.round(canvas.height * height), canvas.width, 1).data;
          const seconds = bench.state.frames / bench.state.rate_hz / canvas.width;
          const found = [];
          let was = false;
          for (let i = 0; i < row.length; i += 4) {
            const is = row[i + 3] > 120 && Math.abs(row[i] - want[0]) + Math.abs(row[i + 1] - want[1]) + Math.abs(row[i + 2] - want[2]) < 60;
            if (is && !was) found.push([i / 4 * seconds, 0]);
            if (!is && was) found.at(-1)[1] = i / 4 * seconds;
            was = is;
          }
          return found;
        }
        """, new object[] { colour, height });

    // How far down the curve of the first lane hangs in each column, as a part of its height.
    private static Task<double[]> Depths(OpenPage open) => open.Page.EvaluateAsync<double[]>("""
        () => {
          const canvas = document.querySelector('.lane canvas');
          const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
          const probe = document.createElement('canvas').getContext('2d');
          probe.fillStyle = getComputedStyle(document.documentElement).getPropertyValue('--a');
          probe.fillRect(0, 0, 1, 1);
          const want = probe.getImageData(0, 0, 1, 1).data;
          return Array.from({ length: canvas.width }, (_, x) => {
            let lowest = 0;
            for (let y = 0; y < canvas.height; y++) {
              const i = 4 * (y * canvas.width + x);
              if (data[i + 3] > 150 && Math.abs(data[i] - want[0]) + Math.abs(data[i + 1] - want[1]) + Math.abs(data[i + 2] - want[2]) < 60) lowest = y;
            }
            return lowest / canvas.height;
          });
        }
        """);

    // Stretches of the mark's colour at the foot of the first lane.
    private static Task<int> Marks(OpenPage open) => open.Page.EvaluateAsync<int>("""
        () => {
          const canvas = document.querySelector('.lane canvas');
          const probe = document.createElement('canvas').getContext('2d');
          probe.fillStyle = getComputedStyle(document.documentElement).getPropertyValue('--b');
          probe.fillRect(0, 0, 1, 1);
          const want = probe.getImageData(0, 0, 1, 1).data;
          const row = canvas.getContext('2d').getImageData(0, canvas.height - 3, canvas.width, 1).data;
          let [count, was] = [0, false];
          for (let i = 0; i < row.length; i += 4) {
            const is = row[i + 3] > 120 && Math.abs(row[i] - want[0]) + Math.abs(row[i + 1] - want[1]) + Math.abs(row[i + 2] - want[2]) < 60;
            if (is && !was) count++;
            was = is;
          }
          return count;
        }
        """);
}
