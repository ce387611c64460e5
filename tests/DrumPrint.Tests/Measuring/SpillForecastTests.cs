using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using DrumPrint.Measuring;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Measuring;

/// <summary>What a chain's <c>spill</c> takes from hits and ghosts, told before it is printed.</summary>
public sealed class SpillForecastTests : IDisposable
{
    private const string Tempo = """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 8 }""";
    private const string Eq = """{ "eq": { "phase": "linear", "bands": [ { "bell": { "freq_hz": 900, "gain_db": 3 } } ] } }""";
    private const int Seconds = 16;

    private readonly TestSession _session = new();

    // Snare on every second beat, a ghost a quarter of a beat before some, a tom between that the snare's microphone hears 12 dB down and 2 ms later.
    // The last ghost falls into the ring of the tom and is softer than it.
    [Fact]
    public void Hits_ghosts_and_spill_are_told_apart_with_what_each_loses()
    {
        var (snare, tom) = Kit();
        Write(snare, tom);

        var record = Assert.Single(Forecast("""{ "spill": { "key": "tom" } }"""));

        Assert.Equal(("snare", "tom", 12.0), (record.Bus, record.Key, record.AmountDb));
        Assert.Equal(15, record.Hits.Count);
        Assert.Equal("1:3.00", record.Hits[0].Place);
        Assert.All(record.Hits, h => Assert.InRange(h.ChangeDb, -0.5, 0.1));
        Assert.InRange(record.Spill.Count, 14, 16);
        Assert.InRange(record.Spill.Select(h => h.ChangeDb).Order().ElementAt(record.Spill.Count / 2), -12.1, -5);
        Assert.InRange(record.Ghosts.Count, 4, 6);
        Assert.Equal(record.Lost, record.Hits.Concat(record.Ghosts).Where(h => h.ChangeDb < -1).OrderBy(h => h.Seconds));
    }

    [Fact]
    public void What_it_tells_is_what_the_prints_show()
    {
        var (snare, tom) = Kit();
        Write(snare, tom);
        var chain = Chain($$"""{{Eq}}, { "spill": { "key": "tom", "amount_db": 20 } }""", Eq);

        var record = Assert.Single(SpillForecast.Of(chain, ReadPolicy.Default, static (_, _) => { }, CancellationToken.None));
        _session.Print(chain);

        var (after, before) = (_session.Read("01_Snare_Test_v1.wav")[0], _session.Read("02_Plain_Test_v1.wav")[0]);
        Assert.All(record.Spill.Concat(record.Hits), h => Assert.Equal(Level(after, h.Seconds) - Level(before, h.Seconds), h.ChangeDb, 1.0));
    }

    [Fact]
    public void A_chain_without_a_spill_has_none()
    {
        var (snare, tom) = Kit();
        Write(snare, tom);

        Assert.Empty(Forecast("""{ "gain": { "level_db": -3 } }"""));
    }

    [Fact]
    public void A_silent_side_of_a_key_claims_no_hit()
    {
        var (snare, tom) = Kit();
        Write(snare, tom);

        var record = Assert.Single(Forecast("""{ "spill": { "key": "neighbours" } }"""));

        Assert.Equal(15, record.Hits.Count);
        Assert.InRange(record.Spill.Count, 14, 16);
        Assert.InRange(record.Ghosts.Count, 4, 6);
    }

    public void Dispose() => _session.Dispose();

    private static double Level(double[] samples, double seconds)
    {
        var best = 0.0;
        for (var from = (int)((seconds - 0.003) * TestSession.Rate); from < (seconds + 0.028) * TestSession.Rate; from += 48)
        {
            best = Math.Max(best, samples.Skip(from).Take(384).Sum(x => x * x) / 384);
        }

        return Decibels.FromGain(Math.Sqrt(best) + 1e-9);
    }

    private static (double[] Snare, double[] Tom) Kit()
    {
        var noise = new CounterNoise(7);
        var (snare, tom) = (new double[Seconds * TestSession.Rate], new double[Seconds * TestSession.Rate]);
        void Hit(double[] to, double seconds, double height, double freqHz, double decayMs, double noisy)
        {
            var at = (int)(seconds * TestSession.Rate);
            for (var n = 0; n < TestSession.Rate / 3 && at + n < to.Length; n++)
            {
                var fall = Math.Exp(-n / (decayMs * TestSession.Rate / 1000));
                to[at + n] += height * fall * (((1 - noisy) * Math.Sin(2 * Math.PI * freqHz * n / TestSession.Rate)) + (noisy * noise.Bipolar(at + n)));
            }
        }

        for (var beat = 1; beat < 31; beat += 2)
        {
            Hit(snare, 0.5 * beat + 0.5, 0.6, 190, 40, 0.6);
            Hit(tom, 0.5 * beat, 0.5, 100, 120, 0.15);
            Hit(snare, (0.5 * beat) + 0.002, 0.125, 100, 120, 0.15);
            if (beat % 6 == 1)
            {
                Hit(snare, (0.5 * beat) + 0.375, 0.06, 190, 30, 0.6);
            }
        }

        return (snare, tom);
    }

    private void Write(double[] snare, double[] tom)
    {
        _session.Track("snare.wav", snare);
        _session.Track("tom.wav", tom);
        File.WriteAllText(Path.Combine(_session.Folder, "tempo.json"), Tempo);
    }

    private IReadOnlyList<SpillRecord> Forecast(string through) => SpillForecast.Of(Chain(through), ReadPolicy.Default, static (_, _) => { }, CancellationToken.None);

    private DrumPrint.Chains.Chain Chain(string through, string plain = "") => _session.ChainFile(
        $$"""
        "tracks": { "snare mic": "snare.wav", "tom": "tom.wav" },
        "buses": { "snare": { "from": { "snare mic": 0 }, "through": [ {{through}} ] },
                   "plain": { "from": { "snare mic": 0 }, "through": [ {{plain}} ] },
                   "neighbours": { "from": { "tom": { "level_db": 0, "pan_pct": -100 } } } },
        "prints": [ { "number": 1, "name": "Snare", "bus": "snare", "level_db": -12 }, { "number": 2, "name": "Plain", "bus": "plain", "level_db": -12 } ]
        """,
        "\"tempo\": \"tempo.json\"");
}
