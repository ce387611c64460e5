using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tests.Chains;

public sealed class ChainReaderTests
{
    [Fact]
    public void The_small_example_reads()
    {
        var chain = ChainReader.Read(Fixtures.Chain("small.chain.json"));

        Assert.Equal(["kick in", "kick out", "hall", "snare top", "snare bottom"], chain.Tracks.Select(t => t.Name));
        Assert.Equal(new Track("kick in", "raw/01_KickIn.wav", 0, false, new PathDelay(1.1, Unit.Milliseconds), false, 13), chain.Tracks[0]);
        Assert.Equal(["kick", "snare", "room"], chain.Buses.Select(b => b.Name));
        Assert.Equal(new Ride(23, 26, true, 3, 50), Assert.Single(chain.Buses[2].Feeds[0].Rides));
        Assert.Equal(new Print(3, "Room", "room", -9, true, 37), chain.Prints[2]);
        Assert.Equal("raw/tempo.json", chain.Song.Tempo!.File);
    }

    [Fact]
    public void What_is_left_out_takes_its_default()
    {
        var chain = Sample.Read(Sample.Chain());

        Assert.Equal(new Song("Ferry", "Ferry", 1, 48000, null, 0, 20), chain.Song);
        Assert.Equal(new Track("in", "raw/in.wav", 0, false, PathDelay.None, false, 1), chain.Tracks[0]);
        Assert.Equal(new Print(1, "Kick", "kick", 0, false, 1), Assert.Single(chain.Prints));
        Assert.Equal(new OutputSettings(), chain.Output);
        Assert.Null(chain.Buses[0].Channels);
        Assert.Empty(chain.DrumBus);
        Assert.Empty(chain.Impulses);
    }

    [Fact]
    public void A_bare_value_is_short_for_a_group()
    {
        var shorthand = Sample.Read(Sample.Chain(rest: "\"impulses\": { \"hall\": \"ir/hall.wav\" }"));
        var spelled = Sample.Read(Sample.Chain(
            tracks: """{ "in": { "file": "raw/in.wav" }, "out": { "file": "raw/out.wav" } }""",
            buses: """{ "kick": { "from": { "in": { "level_db": 0 } } } }""",
            rest: "\"impulses\": { \"hall\": { \"file\": \"ir/hall.wav\" } }"));

        Same.Chains(spelled, shorthand);
    }

    [Fact]
    public void Everything_a_feed_can_say_is_kept()
    {
        var chain = Sample.Read(Sample.Chain(buses: """
            { "kick": { "channels": "stereo", "from": {
                "in": { "level_db": -5, "pan_pct": -15, "polarity": "inverted", "delay_m": 0.38, "ride": [ { "from_s": 1, "to_s": 2.5, "db": -3, "fade_ms": 20 } ] },
                "out": { "delay_frames": 53 } } } }
            """));

        var bus = Assert.Single(chain.Buses);
        Assert.Equal(2, bus.Channels);
        Assert.Equal(new Ride(1, 2.5, false, -3, 20), Assert.Single(bus.Feeds[0].Rides));
        Assert.Equal(new Feed("in", -5, -15, true, new PathDelay(0.38, Unit.Metres), [], 2), bus.Feeds[0] with { Rides = [] });
        Assert.Equal(new PathDelay(53, Unit.Frames), bus.Feeds[1].Delay);
    }

    [Fact]
    public void Stages_hold_checked_settings_key_and_revision()
    {
        var chain = Sample.Read(Sample.Through("""
            [ { "compress": { "ratio": 10, "key": "snare" } }, { "gate": { "revision": 1 } }, { "gate": { } },
              { "eq": { "bands": [ { "bell": { "freq_hz": 420, "gain_db": -3, "q": 0.9 } } ] } } ]
            """));

        var stages = chain.Buses[0].Stages;
        var ratio = (NumberParameter)stages[0].Definition.Parameters.Single(p => p.Key == "ratio");
        var threshold = (NumberParameter)stages[0].Definition.Parameters.Single(p => p.Key == "threshold_db");
        Assert.Equal((10, -20), (stages[0].Settings[ratio], stages[0].Settings[threshold]));
        Assert.Equal(["snare", null, null, null], stages.Select(s => s.Key));
        Assert.Equal([1, 1, 2, 1], stages.Select(s => s.Definition.Revision));
        var bands = (ListParameter)stages[3].Definition.Parameters[0];
        var band = Assert.Single(stages[3].Settings[bands]);
        Assert.Equal("bell", band.Kind.Key);
        Assert.Equal([420, -3, 0.9], band.Kind.Parameters.Select(p => (double)band.Settings.Raw(p)!));
    }

    [Fact]
    public void Output_says_how_prints_are_written()
    {
        var chain = Sample.Read(Sample.Chain(rest: """
            "output": { "bits": "32f", "dither": "tpdf", "tail_s": 4, "tail_cap_s": 8, "over": "lower_together",
                        "rough": { "number": 80, "name": "Sum" }, "rough_with_bus": false }
            """));

        Assert.Equal(
            new OutputSettings
            {
                Encoding = SampleEncoding.Float32,
                Dither = true,
                TailS = 4,
                TailCapS = 8,
                LowerTogether = true,
                Rough = new RoughPrint(80, "Sum", 0),
                RoughWithBus = null,
                Click = null,
            },
            chain.Output);
    }

    [Fact]
    public void A_click_stands_with_its_defaults_when_switched_on()
    {
        var chain = ChainReader.Read(Fixtures.Chain("small.chain.json"));

        Assert.Equal(new RoughPrint(92, "Click", -12), chain.Output.Click);
        Assert.Equal(new RoughPrint(90, "RoughPreBus", 0), chain.Output.Rough);
    }

    [Theory]
    [InlineData("mono", ImpulseLayout.Mono)]
    [InlineData("stereo", ImpulseLayout.Stereo)]
    [InlineData("true_stereo", ImpulseLayout.TrueStereo)]
    [InlineData("auto", null)]
    public void Impulse_layouts_are_read(string word, ImpulseLayout? expected)
    {
        var chain = Sample.Read(Sample.Chain(rest: $$""" "impulses": { "hall": { "file": "ir/hall.wav", "layout": "{{word}}" } } """));

        Assert.Equal(expected, Assert.Single(chain.Impulses).Layout);
    }

    [Fact]
    public void Prints_stand_by_number()
    {
        var chain = Sample.Read(Sample.Chain(prints: """
            [ { "number": 3, "name": "C", "bus": "kick" }, { "number": 1, "name": "A", "bus": "kick" }, { "number": 2, "name": "B", "bus": "kick" } ]
            """));

        Assert.Equal([1, 2, 3], chain.Prints.Select(p => p.Number));
    }

    [Fact]
    public void A_number_is_free_again_once_the_rough_is_off()
    {
        var chain = Sample.Read(Sample.Chain(
            prints: """[ { "number": 90, "name": "RoughPreBus", "bus": "kick" } ]""", rest: "\"output\": { \"rough\": false }"));

        Assert.Equal(90, Assert.Single(chain.Prints).Number);
    }

    [Fact]
    public void A_chain_may_name_its_schema()
    {
        var chain = Sample.Read(Sample.Chain(rest: "\"$schema\": \"chain.schema.json\""));

        Same.Chains(Sample.Read(Sample.Chain()), chain);
    }
}
