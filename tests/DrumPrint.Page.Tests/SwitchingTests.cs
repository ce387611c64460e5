using System.Text.Json;

namespace DrumPrint.Page.Tests;

/// <summary>The way from the sides to the ears, measured in the browser's offline context.</summary>
[Collection(Browser.Pages)]
public sealed class SwitchingTests(Browser browser)
{
    // 32-bit samples through four gains and a straight line of 16 385 points.
    private const double Rounding = 2e-6;

    // Plays from frame 24 000 on at true level and full volume. Goes over to B after 0.5 s and to A after 1 s. Returns the
    // output with what both sides hold at the same frames.
    private const string Script = """
        async () => {
          const { createAudition, joinSides, sides, data } = window.drumPrint;
          const rate = data.audio.rate_hz;
          const frames = 72000;
          const offline = new OfflineAudioContext(2, frames, rate);
          const audition = createAudition(offline);
          const buffer = joinSides(offline, sides.a, sides.b, rate, 0, sides.a[0].length, 240);
          audition.volume(0.5, 0);
          audition.weigh(1, 0, 0);
          audition.play(buffer, 24000, 0);
          audition.weigh(0, 1, 24000 / rate);
          audition.weigh(1, 0, 48000 / rate);
          const out = await offline.startRendering();
          return JSON.stringify({
            out: Array.from(out.getChannelData(0)),
            right: Array.from(out.getChannelData(1)),
            a: Array.from(sides.a[0].subarray(24000, 24000 + frames)),
            b: Array.from(sides.b[0].subarray(24000, 24000 + frames)),
            ar: Array.from(sides.a[1].subarray(24000, 24000 + frames)),
            br: Array.from(sides.b[1].subarray(24000, 24000 + frames)),
          });
        }
        """;

    [FactInBrowser]
    public async Task Switching_keeps_the_place_to_the_sample_without_gap_or_click()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        using var result = JsonDocument.Parse(await open.Page.EvaluateAsync<string>(Script));
        var (heard, a, b) = (Read(result, "out"), Read(result, "a"), Read(result, "b"));
        var (right, ar, br) = (Read(result, "right"), Read(result, "ar"), Read(result, "br"));

        // After the fade-in of 200 ms and the 50 ms in which the volume settled: exactly A, exactly B, exactly A.
        AssertIs(heard, a, 9600, 24000);
        AssertIs(heard, b, 24240, 48000);
        AssertIs(heard, a, 48240, 72000);
        AssertIs(right, ar, 9600, 24000);
        AssertIs(right, br, 24240, 48000);
        for (var n = 24000; n < 24240; n++)
        {
            var share = (n - 24000) / 240.0;
            Assert.Equal(0.5 * ((a[n] * (1 - share)) + (b[n] * share)), heard[n], Rounding);
        }

        // No step beyond the sides' own: what the cross-fade adds is at most a 240th of how far the sides are apart.
        for (var n = 24000; n <= 24240; n++)
        {
            var own = 0.5 * Math.Max(Math.Abs(a[n] - a[n - 1]), Math.Abs(b[n] - b[n - 1]));
            var fade = 0.5 * Math.Max(Math.Abs(a[n] - b[n]), Math.Abs(a[n - 1] - b[n - 1])) / 240;
            Assert.InRange(Math.Abs(heard[n] - heard[n - 1]), 0, own + fade + Rounding);
        }

        var largestOwn = Enumerable.Range(9601, 62000).Max(n => Math.Max(Math.Abs(a[n] - a[n - 1]), Math.Abs(b[n] - b[n - 1]))) * 0.5;
        var largest = Enumerable.Range(9601, 62000).Max(n => Math.Abs(heard[n] - heard[n - 1]));
        Assert.InRange(largest, 0, largestOwn + Rounding);
        Assert.Contains(heard.Skip(24000).Take(240), x => Math.Abs(x) > 1e-5);
    }

    [FactInBrowser]
    public async Task Listening_fades_in_over_200_ms()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        using var result = JsonDocument.Parse(await open.Page.EvaluateAsync<string>("""
            async () => {
              const { createAudition, joinSides } = window.drumPrint;
              const rate = 48000;
              const one = [new Float32Array(rate).fill(0.5), new Float32Array(rate).fill(0.5)];
              const offline = new OfflineAudioContext(2, rate / 2, rate);
              const audition = createAudition(offline);
              audition.weigh(1, 0, 0);
              audition.play(joinSides(offline, one, one, rate, 0, rate, 0), 0, 0.1);
              const out = await offline.startRendering();
              return JSON.stringify({ out: Array.from(out.getChannelData(0)) });
            }
            """));
        var heard = Read(result, "out");

        // The quiet start: 20 dB down, silent before the start, half way up after 100 ms, all the way after 200.
        Assert.Equal(0, heard[4799]);
        Assert.Equal(0.05 / 2, heard[4800 + 4800], 1e-4);
        Assert.Equal(0.05, heard[4800 + 9600], 1e-5);
        Assert.InRange(heard.Zip(heard.Skip(1)).Max(p => p.Second - p.First), 0, 0.05 / 9600 * 1.05);
    }

    [FactInBrowser]
    public async Task A_switch_in_the_middle_of_a_switch_does_not_jump()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        using var result = JsonDocument.Parse(await open.Page.EvaluateAsync<string>("""
            async () => {
              const { createAudition, joinSides } = window.drumPrint;
              const rate = 48000;
              const one = [new Float32Array(rate).fill(0.5), new Float32Array(rate).fill(0.5)];
              const none = [new Float32Array(rate), new Float32Array(rate)];
              const offline = new OfflineAudioContext(2, rate / 2, rate);
              const audition = createAudition(offline);
              audition.volume(1, 0);
              audition.weigh(1, 0, 0);
              audition.play(joinSides(offline, one, none, rate, 0, rate, 0), 0, 0);
              audition.weigh(0, 1, 0.3);
              audition.weigh(1, 0, 0.302);
              const out = await offline.startRendering();
              return JSON.stringify({ out: Array.from(out.getChannelData(0)) });
            }
            """));
        var heard = Read(result, "out");

        Assert.Equal(0.5 * 0.6, heard[(int)(0.302 * 48000)], 1e-3);
        Assert.Equal(0.5, heard[(int)(0.31 * 48000)], 1e-5);
        Assert.InRange(Enumerable.Range(14000, 2000).Max(n => Math.Abs(heard[n] - heard[n - 1])), 0, 0.5 / 240 * 1.05);
    }

    [FactInBrowser]
    public async Task The_limiter_leaves_what_is_below_minus_3_dBFS_alone_and_lets_nothing_reach_full_scale()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        using var result = JsonDocument.Parse(await open.Page.EvaluateAsync<string>("""
            async () => {
              const { createAudition, joinSides } = window.drumPrint;
              const rate = 48000;
              const ramp = Float32Array.from({ length: rate }, (_, n) => 3 * n / rate);
              const offline = new OfflineAudioContext(2, rate, rate);
              const audition = createAudition(offline);
              audition.volume(1, 0);
              audition.weigh(1, 0, 0);
              audition.play(joinSides(offline, [ramp, ramp], [ramp, ramp], rate, 0, rate, 0), 0, 0);
              const out = await offline.startRendering();
              return JSON.stringify({ out: Array.from(out.getChannelData(0)) });
            }
            """));
        var heard = Read(result, "out");

        foreach (var n in Enumerable.Range(9600, 1500))
        {
            Assert.Equal(3.0 * n / 48000, heard[n], Rounding);
        }

        Assert.InRange(heard.Max(), 0.9, 0.99);
        Assert.All(heard.Zip(heard.Skip(1)), p => Assert.True(p.Second >= p.First - Rounding));
    }

    private static double[] Read(JsonDocument result, string name) => [.. result.RootElement.GetProperty(name).EnumerateArray().Select(x => x.GetDouble())];

    private static void AssertIs(double[] heard, double[] side, int from, int to)
    {
        for (var n = from; n < to; n++)
        {
            Assert.Equal(0.5 * side[n], heard[n], Rounding);
        }
    }
}
