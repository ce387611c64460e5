using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Demo;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>
/// The demo's own chain, with every stage that bends the signal set so that it does not. Each track is fed one impulse.
/// Each impulse must come out of each print at the delays the chain asks for and nowhere else, whatever latency lies
/// between.
/// </summary>
public sealed class DemoPathTests : IDisposable
{
    private const int Spacing = 5000;
    private const int First = 2000;
    private const double Level = 1e-3; // small, so that a saturating curve is a straight line
    private const double Silent = 1e-7; // 80 dB below it: what the tape's slow filters still hold from the impulse before
    private const int Ringing = 100;   // half the length of the oversampling filters, at the session's rate
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Every_path_of_the_demo_arrives_at_the_delays_its_chain_asks_for()
    {
        var chain = Neutral(DemoChain());
        WriteImpulses(chain);

        var report = _session.Print(chain, new PrintOptions { Encoding = SampleEncoding.Float32 });

        Assert.True(report.Prints.Max(p => p.LatencyFrames) > 48, "no latency was there to be taken out");
        foreach (var print in chain.Prints)
        {
            var samples = _session.Read(PrintFileName.Of(print.Number, print.Name, chain.Song));
            var paths = Paths(chain, print.Bus);
            for (var track = 0; track < chain.Tracks.Count; track++)
            {
                var asked = paths.GetValueOrDefault(chain.Tracks[track].Name) ?? [];
                var heard = samples.Max(s => s.AsSpan(Start(track), Spacing / 2).ToArray().Max(Math.Abs));
                Assert.True(asked.Count == 0 || heard > Silent, $"{print.Name} from {chain.Tracks[track].Name}: nothing arrives");
                foreach (var side in samples)
                {
                    Check($"{print.Name} from {chain.Tracks[track].Name}", side.AsSpan(Start(track) - (Spacing / 4), Spacing), asked);
                }
            }
        }
    }

    private static void Check(string path, Span<double> stretch, IReadOnlySet<int> asked)
    {
        const int at = Spacing / 4;
        var peak = stretch.ToArray().Max(Math.Abs);
        if (asked.Count == 0)
        {
            Assert.True(peak < Silent, $"{path}: {peak} where nothing is fed");
            return;
        }

        // A side that is panned away hears nothing.
        if (peak < Silent)
        {
            return;
        }

        foreach (var delay in asked)
        {
            var near = stretch.Slice(at + delay - 3, 7).ToArray().Select(Math.Abs).ToArray();
            Assert.True(near[3] == near.Max() && near[3] > peak * 1e-3, $"{path}: nothing stands out at {delay} frames");
        }

        for (var n = 0; n < stretch.Length; n++)
        {
            if (!asked.Any(d => Math.Abs(n - at - d) <= Ringing))
            {
                Assert.True(Math.Abs(stretch[n]) < Math.Max(peak * 1e-3, Silent), $"{path}: {stretch[n]} at {n - at} frames, where nothing is asked for");
            }
        }
    }

    private static int Start(int track) => First + (track * Spacing);

    private Chain DemoChain()
    {
        Directory.CreateDirectory(Path.Combine(_session.Folder, "raw"));
        File.WriteAllText(Path.Combine(_session.Folder, SongForm.TempoFile), TempoText.Of(SongForm.Cut));
        return ChainReader.Parse(ChainText.Of(full: false), Path.Combine(_session.Folder, "SlowFerry.chain.json"));
    }

    private void WriteImpulses(Chain chain)
    {
        var frames = Start(chain.Tracks.Count) + Spacing;
        for (var track = 0; track < chain.Tracks.Count; track++)
        {
            _session.Track(chain.Tracks[track].File, Signals.Impulse(frames, Start(track), Level));
        }

        foreach (var impulse in chain.Impulses)
        {
            double[][] unit = impulse.Layout == ImpulseLayout.TrueStereo ? [[1, 0], [0, 0], [0, 0], [1, 0]] : [[1, 0], [1, 0]];
            _session.Track(impulse.File, unit);
        }
    }

    private static Chain Neutral(Chain chain) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b with { Stages = [.. b.Stages.Select(Neutral)] })],
        DrumBus = [.. chain.DrumBus.Select(Neutral)],
        Output = chain.Output with { TailS = 0.2 },
    };

    private static Stage Neutral(Stage stage)
    {
        var settings = stage.Settings;
        (Parameter, object)[] changes = stage.Definition.Key switch
        {
            "eq" => [(Eq.Bands, new[] { FlatBell() })],
            "compress" => [(Compress.Ratio, 1.0), (Compress.MakeUp, 0.0)],
            "gate" => [(Gate.Range, 0.0)],
            "duck" => [(Duck.Amount, 0.0)],
            "saturate" => [(Saturate.Drive, 0.0)],
            "tape" => [(Tape.Bump, 0.0)],
            "convolve" => [(Convolve.Level, "as_is")],
            _ => [],
        };
        var kept = stage.Definition.Parameters
            .Where(p => changes.All(c => c.Item1 != p) && !(stage.Definition.Key == "tape" && p == Tape.Top))
            .Where(p => settings.Raw(p) is not null)
            .Select(p => (p, settings.Raw(p)!));
        return stage with { Settings = Settings.Of(stage.Definition.Parameters, [.. kept, .. changes]) };
    }

    private static Item FlatBell()
    {
        var bell = Eq.Bands.Kinds.Single(k => k.Key == "bell");
        return new Item(bell, Settings.Of(bell.Parameters, Of("freq_hz", 1000), Of("gain_db", 0)));

        (Parameter, object) Of(string key, double value) => (bell.Parameters.Single(p => p.Key == key), value);
    }

    // For each track that reaches a bus, the sums of the delays asked for along each way.
    private static Dictionary<string, HashSet<int>> Paths(Chain chain, string source)
    {
        if (chain.Tracks.FirstOrDefault(t => t.Name == source) is { } track)
        {
            return new() { [source] = [Frames(chain, track.Delay)] };
        }

        var bus = chain.Buses.Single(b => b.Name == source);
        var through = bus.Stages.Sum(s => s.Definition.Key == "convolve" ? (int)Math.Round(s.Settings[Convolve.PreDelay] / 1000 * chain.Song.RateHz) : 0);
        var all = new Dictionary<string, HashSet<int>>();
        foreach (var feed in bus.Feeds)
        {
            foreach (var (name, delays) in Paths(chain, feed.Source))
            {
                if (!all.TryGetValue(name, out var known))
                {
                    all.Add(name, known = []);
                }

                known.UnionWith(delays.Select(d => d + through + Frames(chain, feed.Delay)));
            }
        }

        return all;
    }

    private static int Frames(Chain chain, DrumPrint.Chains.PathDelay delay) => (int)delay.ToFrames(chain.Song.RateHz, chain.Song.TemperatureC);
}
