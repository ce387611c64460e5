using System.Diagnostics;
using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Live;
using DrumPrint.Tests.Support;
using Xunit.Abstractions;

namespace DrumPrint.Tests.Live;

/// <summary>Everything that can be asked of what plays, in any order, while it plays. <c>DRUMPRINT_LIVE_SECONDS</c> says for how long,
/// <c>DRUMPRINT_LIVE_SEED</c> in which order.</summary>
public sealed class LiveStressTests : IDisposable
{
    private const int Block = TestSession.Rate / 100;
    private const int Seconds = 6;
    private const int UsualSeconds = 6;
    private const int UsualSeed = 11;

    // A jump comes in over the first block.
    private const int Coming = 2;

    private static readonly TimeSpan Watched = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan LongestOperation = TimeSpan.FromMinutes(1);

    private readonly TestSession _session = new();
    private readonly ITestOutputHelper _output;

    public LiveStressTests(ITestOutputHelper output)
    {
        _output = output;
        var noise = new CounterNoise(5);
        _session.Track("raw/a.wav", [.. Enumerable.Range(0, Seconds * TestSession.Rate).Select(n => 0.3 * noise.Bipolar(n) * Math.Exp(-(n % 24000) / 6000.0))]);
        _session.Track("raw/b.wav", [.. Enumerable.Range(0, Seconds * TestSession.Rate).Select(n => 0.3 * Math.Sin(0.01 * n) * Math.Exp(-(n % 12000) / 3000.0))]);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public async Task After_anything_in_any_order_it_sounds_as_if_nothing_had_been_before()
    {
        var random = new Random(Number("DRUMPRINT_LIVE_SEED", UsualSeed));
        var chains = Enumerable.Range(0, 6).Select(Chain).ToArray();
        var engine = new LiveEngine(chains[0], 0);
        var (unheard, asked, isOver) = (0, 0, false);
        engine.Unheard = () => Volatile.Read(ref unheard);
        engine.IsShort = () => Interlocked.Increment(ref asked) % 50 < 2;
        var blocks = 0L;
        var playing = SideThread.Run(
            () =>
            {
                var stereo = new float[2 * Block];
                List<float> peaks = [];
                while (!Volatile.Read(ref isOver))
                {
                    if (engine.Next(stereo, peaks) < 0)
                    {
                        Thread.Sleep(1);
                    }

                    Assert.All(stereo, s => Assert.True(float.IsFinite(s) && Math.Abs(s) < 4));
                    blocks++;
                    if (blocks % 4 == 0)
                    {
                        Thread.Sleep(1);
                    }
                }
            },
            givesWay: false);
        var watching = SideThread.Run(() =>
        {
            while (!Volatile.Read(ref isOver))
            {
                engine.PrepareAgain();
                engine.Meters();
                Thread.Sleep(Watched);
            }
        });
        var count = new Dictionary<string, int>();
        var clock = Stopwatch.StartNew();
        var longest = TimeSpan.Zero;
        while (clock.Elapsed < TimeSpan.FromSeconds(Number("DRUMPRINT_LIVE_SECONDS", UsualSeconds)) && !playing.IsCompleted && !watching.IsCompleted)
        {
            Volatile.Write(ref unheard, random.Next(-2, 10));
            var (name, operation) = Operation(engine, chains, random);
            var begun = clock.Elapsed;
            await SideThread.Run(operation).WaitAsync(LongestOperation);
            longest = clock.Elapsed - begun > longest ? clock.Elapsed - begun : longest;
            count[name] = count.GetValueOrDefault(name) + 1;
            Thread.Sleep(random.Next(3) == 0 ? random.Next(60) : 0);
        }

        Volatile.Write(ref isOver, true);
        await playing.WaitAsync(LongestOperation);
        await watching.WaitAsync(LongestOperation);
        _output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{blocks} blocks, longest {longest.TotalMilliseconds:0} ms: {string.Join(", ", count.Select(c => $"{c.Key} {c.Value}"))}"));

        Same(engine, chains[3]);
    }

    private static (string Name, Action Operation) Operation(LiveEngine engine, Chain[] chains, Random random)
    {
        var (a, b, frame, gain, isOn) = (chains[random.Next(chains.Length)], chains[random.Next(chains.Length)], (long)random.Next(Seconds * TestSession.Rate), random.NextDouble(), random.Next(2) == 0);
        var length = random.Next(10, 60) * Block;
        double? matched = isOn ? gain : null;
        return random.Next(10) switch
        {
            0 or 1 or 2 => ("change", () => engine.Change(a, matched)),
            3 => ("repeat", () => engine.Repeat(frame, frame + length)),
            4 => ("no repeat", () => engine.Repeat(null, null)),
            5 => ("seek", () => engine.Seek(frame)),
            6 => ("pair", () => engine.Pair(a, b, gain, 1 - gain)),
            7 => ("hear", () => engine.Hear(isOn)),
            8 => ("match", () => engine.Match(gain)),
            _ => ("bus", () => engine.HearBus(isOn)),
        };
    }

    private static void Same(LiveEngine engine, Chain chain)
    {
        engine.Unheard = static () => 0;
        engine.IsShort = static () => false;
        engine.Repeat(null, null);
        engine.HearBus(false);
        engine.Change(chain, 1);
        engine.Seek(2 * TestSession.Rate);
        var fresh = new LiveEngine(chain, 0);
        fresh.Seek(2 * TestSession.Rate);
        var (mine, wanted) = (new float[2 * Block], new float[2 * Block]);
        List<float> peaks = [], wantedPeaks = [];
        for (var n = 0; n < 100; n++)
        {
            Assert.Equal(fresh.Next(wanted, wantedPeaks), engine.Next(mine, peaks));
            if (n >= Coming)
            {
                Assert.Equal(wanted, mine);
                Assert.Equal(wantedPeaks, peaks);
            }
        }
    }

    private Chain Chain(int n) => _session.Chain(FormattableString.Invariant($$"""
        "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
        "buses": {
          "all": { "from": { "a": {{-3 - (n % 2)}}, "b": -6 } },
          "hard": { "from": { "all": 0 }, "through": [ { "compress": { "threshold_db": -30, "ratio": {{3 + n}}, "attack_ms": 2, "release_ms": 40 } }, { "limit": { "ceiling_dbtp": -6 } } ] },
          "gated": { "from": { "b": 0, "hard": {{-n}} }, "through": [ { "gate": { "open_db": -30, "hold_ms": 60, "look_ahead_ms": 2 } }, { "eq": { "bands": [ { "low_shelf": { "freq_hz": {{80 + (20 * (n / 3))}}, "gain_db": 4 } } ] } } ] } },
        "prints": [ { "number": 1, "name": "All", "bus": "all" }, { "number": 2, "name": "Hard", "bus": "hard" }, { "number": 3, "name": "Gated", "bus": "gated", "level_db": {{-n}} } ],
        "drum_bus": { "through": [ { "compress": { "threshold_db": -18, "ratio": 2 } }, { "limit": { "ceiling_dbtp": -3 } } ] }
        """));

    private static int Number(string name, int usual) => int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out var number) ? number : usual;
}
