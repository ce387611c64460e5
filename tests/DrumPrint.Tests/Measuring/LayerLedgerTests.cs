using DrumPrint.Files;
using DrumPrint.Measuring;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Measuring;

/// <summary>Hits of a chain's layers, by bar and beat.</summary>
public sealed class LayerLedgerTests : IDisposable
{
    private const string Tempo = """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 4 }""";

    private readonly TestSession _session = new();

    // Half a second a beat: hits on 1:1 and a quarter of a beat, 1:3 and 2:2, the last one upside down and behind an equaliser that is late.
    [Fact]
    public void A_ledger_names_each_hit_by_bar_and_beat_with_its_level()
    {
        double[] stroke = [.. Enumerable.Range(0, 4800).Select(n => 0.5 * Math.Exp(-n / 600.0) * Math.Sin(n * 0.13))];
        var track = new double[3 * TestSession.Rate];
        foreach (var (seconds, height) in new[] { (0.125, 1.0), (1.0, 0.1), (2.5, -0.5) })
        {
            for (var n = 0; n < stroke.Length; n++)
            {
                track[(int)(seconds * TestSession.Rate) + n] += height * stroke[n];
            }
        }

        _session.Track("snare.wav", track);
        _session.Track("stroke.wav", stroke);
        File.WriteAllText(Path.Combine(_session.Folder, "tempo.json"), Tempo);
        var chain = _session.ChainFile(
            """
            "tracks": { "snare": "snare.wav" },
            "impulses": { "stroke": "stroke.wav" },
            "buses": { "one": { "from": { "snare": 0 }, "through": [ { "eq": { "bands": [ { "bell": { "freq_hz": 900, "gain_db": 0 } } ] } }, { "layer": { "sound": "stroke", "open_db": -40 } } ] },
                       "two": { "from": { "snare": 0 } } },
            "prints": [ { "number": 1, "name": "One", "bus": "one" }, { "number": 2, "name": "Two", "bus": "two" } ]
            """,
            "\"tempo\": \"tempo.json\"");

        var layer = Assert.Single(LayerLedger.Of(chain, ReadPolicy.Default, static (_, _) => { }, CancellationToken.None));

        Assert.Equal(("one", "stroke"), (layer.Bus, layer.Sound));
        Assert.Equal(["1:1.25", "1:3.00", "2:2.00"], layer.Hits.Select(h => h.Place));
        Assert.Equal([false, false, true], layer.Hits.Select(h => h.IsInverted));
        Assert.All(layer.Hits, h => Assert.InRange(h.LikenessPct, 99, 100.001));
        Assert.Equal(-20, layer.Hits[1].LevelDb - layer.Hits[0].LevelDb, 0.1);
        Assert.Equal(-20, layer.Hits[1].GainDb, 0.1);
    }

    [Fact]
    public void A_chain_without_a_layer_has_none()
    {
        _session.Track("snare.wav", new double[4800]);
        var chain = _session.ChainFile("""
            "tracks": { "snare": "snare.wav" },
            "buses": { "two": { "from": { "snare": 0 } } },
            "prints": [ { "number": 2, "name": "Two", "bus": "two" } ]
            """);

        Assert.Empty(LayerLedger.Of(chain, ReadPolicy.Default, static (_, _) => { }, CancellationToken.None));
    }

    [Fact]
    public void A_setting_that_does_not_go_is_told_by_its_place_in_the_chain()
    {
        _session.Track("snare.wav", new double[4800]);
        var chain = _session.ChainFile("""
            "tracks": { "snare": "snare.wav" },
            "impulses": { "stroke": "snare.wav" },
            "buses": { "two": { "from": { "snare": 0 }, "through": [ { "layer": { "sound": "stroke", "from_s": 3 } } ] } },
            "prints": [ { "number": 2, "name": "Two", "bus": "two" } ]
            """);

        var refused = Assert.Throws<DrumPrint.Chains.ChainException>(() => LayerLedger.Of(chain, ReadPolicy.Default, static (_, _) => { }, CancellationToken.None));

        Assert.Contains("buses.two.through[0].layer: Nothing is left of 'stroke'", refused.Message, StringComparison.Ordinal);
    }

    public void Dispose() => _session.Dispose();
}
