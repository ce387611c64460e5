namespace DrumPrint.Tests.Chains;

public sealed class ProcessorMistakeTests
{
    [Theory]
    [InlineData("""{ "compres": { } }""", "compres: 'compres' is not a processor. Did you mean 'compress'?")]
    [InlineData("""{ "limiter": { } }""", "limiter: 'limiter' is not a processor; there are gain, eq, compress, gate, tape and convolve.")]
    public void An_unknown_processor_is_told_with_the_one_that_was_meant(string stage, string expected) => Assert.Equal([$"buses.kick.through[0].{expected}"], Stage(stage));

    [Theory]
    [InlineData("\"compress\"", ": this is the text \"compress\"; a processor looks like { \"compress\": { … } }.")]
    [InlineData("{ }", ": this { } is empty; a processor looks like { \"gain\": { … } }.")]
    [InlineData("""{ "compress": { }, "gate": { } }""", ": this names compress and gate; give each a { } of its own.")]
    [InlineData("""{ "compress": { }, "key": "snare" }""", ".key: 'key' must stand inside the braces of 'compress'.")]
    [InlineData("""{ "ratio": 4, "attack_ms": 3 }""", ": a name is missing around these settings; a processor looks like { \"gain\": { … } }.")]
    public void A_step_names_exactly_one_processor(string stage, string expected) => Assert.Equal([$"buses.kick.through[0]{expected}"], Stage(stage));

    [Theory]
    [InlineData("\"ratoi\": 4", "ratoi: 'ratoi' is not a setting of compress. Did you mean 'ratio'?")]
    [InlineData("\"threshold\": -3", "threshold: 'threshold' is not a setting of compress. Did you mean 'threshold_db' (decibels)?")]
    [InlineData("\"attack_s\": 0.1", "attack_s: 'attack_s' is not a setting of compress. Did you mean 'attack_ms' (milliseconds)?")]
    [InlineData("\"attackMs\": 1", "attackMs: 'attackMs' is not a setting of compress. Did you mean 'attack_ms' (milliseconds)?")]
    [InlineData("\"Attack-ms\": 1", "Attack-ms: 'Attack-ms' is not a setting of compress. Did you mean 'attack_ms' (milliseconds)?")]
    [InlineData("\"release_msec\": 1", "release_msec: 'release_msec' is not a setting of compress. Did you mean 'release_ms' (milliseconds)?")]
    [InlineData("\"atack_ms\": 1", "atack_ms: 'atack_ms' is not a setting of compress. Did you mean 'attack_ms'?")]
    [InlineData("\"bypass\": true", "bypass: 'bypass' is not a setting of compress. Did you mean 'off'?")]
    [InlineData("\"off\": \"yes\"", "off: 'off' is the text \"yes\"; it takes true or false.")]
    [InlineData("\"mix\": 1", "mix: 'mix' is not a setting of compress; it takes revision, key, off, topology, threshold_db, ratio, attack_ms, release_ms, key_high_pass_hz.")]
    [InlineData("\"ratio\": 400", "ratio: 'ratio' is 400; it takes a number from 1 to 100. Nearest: 100.")]
    [InlineData("\"threshold_db\": 12", "threshold_db: 'threshold_db' is 12 dB; it takes a number from -80 to 0 dB. Did you mean -12?")]
    [InlineData("\"threshold_db\": \"12 dB\"", "threshold_db: 'threshold_db' is the text \"12 dB\"; it takes a number from -80 to 0 dB. Write the bare number: -12.")]
    [InlineData("\"threshold_db\": 90", "threshold_db: 'threshold_db' is 90 dB; it takes a number from -80 to 0 dB. Nearest: 0.")]
    [InlineData("\"ratio\": \"4:1\"", "ratio: 'ratio' is the text \"4:1\"; it takes a number from 1 to 100. Write the bare number: 4.")]
    [InlineData("\"ratio\": \"10:1\"", "ratio: 'ratio' is the text \"10:1\"; it takes a number from 1 to 100. Write the bare number: 10.")]
    [InlineData("\"ratio\": \"4 : 1\"", "ratio: 'ratio' is the text \"4 : 1\"; it takes a number from 1 to 100. Write the bare number: 4.")]
    [InlineData("\"ratio\": \"1:4\"", "ratio: 'ratio' is the text \"1:4\"; it takes a number from 1 to 100.")]
    [InlineData("\"ratio\": \"4\"", "ratio: 'ratio' is the text \"4\"; it takes a number from 1 to 100. Write the bare number: 4.")]
    [InlineData("\"ratio\": [ 4 ]", "ratio: 'ratio' is a list in [ ]; it takes a number from 1 to 100.")]
    [InlineData("\"topology\": \"feed_back\"", "topology: 'feed_back' is not a choice for 'topology'; it takes feed_forward, feedback. Did you mean 'feedback'?")]
    [InlineData("\"key\": \"snaer\"", "key: there is no track or bus called 'snaer'. Did you mean 'snare'?")]
    [InlineData("\"key\": 5", "key: 'key' is the number 5; it takes the name of a track or bus, in quotes.")]
    [InlineData("\"revision\": 7", "revision: compress has no revision 7; it has 1.")]
    [InlineData("\"revision\": \"1\"", "revision: 'revision' is the text \"1\"; it takes a whole number from 1 to 999. Write the bare number: 1.")]
    public void A_wrong_setting_is_told_with_the_right_one(string setting, string expected) => Assert.Equal([$"buses.kick.through[0].compress.{expected}"], Stage($$"""{ "compress": { {{setting}} } }"""));

    [Theory]
    [InlineData("""{ "gain": { "key": "snare" } }""", "gain.key: gain has no detector, so it takes no 'key'. Take it out.")]
    [InlineData("""{ "gate": { "revision": 3 } }""", "gate.revision: gate has no revision 3; it has 1 and 2.")]
    [InlineData("""{ "gate": { "revision": 1, "hold_ms": 3 } }""", "gate.hold_ms: 'hold_ms' is not a setting of gate; it takes revision, key, off, open_db.")]
    [InlineData("""{ "tape": { "oversampling": 3 } }""", "tape.oversampling: 'oversampling' is 3; it takes one of 2, 4, 8, 16. Nearest: 2.")]
    [InlineData("""{ "tape": { "speed_in_per_s": "15" } }""", "tape.speed_in_per_s: 'speed_in_per_s' is the text \"15\"; it takes one of 15, 30. Write the bare number: 15.")]
    [InlineData("""{ "convolve": { } }""", "convolve.impulse: 'impulse' is missing; convolve needs the name of an impulse, in quotes.")]
    [InlineData("""{ "convolve": { "impulse": "hall" } }""", "convolve.impulse: there is no impulse called 'hall'. The chain declares no impulse.")]
    [InlineData("""{ "eq": { } }""", "eq.bands: 'bands' is missing; eq needs a list in [ ] of high_pass and bell.")]
    [InlineData("""{ "eq": { "bands": [ { "bel": { } } ] } }""", "eq.bands[0].bel: 'bel' is not an item of 'bands'. Did you mean 'bell'?")]
    [InlineData("""{ "eq": { "bands": [ { } ] } }""", "eq.bands[0]: this { } is empty; an item of 'bands' looks like { \"high_pass\": { … } }.")]
    [InlineData("""{ "eq": { "bands": [ { "bell": { "freq_hz": 400 } } ] } }""", "eq.bands[0].bell.gain_db: 'gain_db' is missing; bell needs a number from -24 to 24 dB.")]
    [InlineData("""{ "eq": { "bands": [ { "high_pass": { "freq_hz": 1.5 } } ] } }""", "eq.bands[0].high_pass.freq_hz: 'freq_hz' is 1.5 Hz; it takes a number from 10 to 20000 Hz. Nearest: 10. If kHz were meant: 1500.")]
    [InlineData("""{ "eq": { "bands": [ { "high_pass": { "freq_hz": 100, "slope_db_per_oct": 13 } } ] } }""", "eq.bands[0].high_pass.slope_db_per_oct: 'slope_db_per_oct' is 13 dB/oct; it takes one of 6, 12, 18, 24 dB/oct. Nearest: 12.")]
    public void Keys_revisions_steps_and_items_are_checked_too(string stage, string expected) => Assert.Equal([$"buses.kick.through[0].{expected}"], Stage(stage));

    [Fact]
    public void An_impulse_is_offered_by_name()
    {
        var words = Sample.Words(Sample.Through("""[ { "convolve": { "impulse": "hal" } } ]""", "\"impulses\": { \"hall\": \"ir/hall.wav\" }"));

        Assert.Equal(["buses.kick.through[0].convolve.impulse: there is no impulse called 'hal'. Did you mean 'hall'?"], words);
    }

    [Fact]
    public void The_drum_bus_is_read_as_strictly_as_any_bus()
    {
        var words = Sample.Words(Sample.Chain(rest: """ "drum_bus": { "through": [ { "compress": { "ratoi": 2, "key": "nobody" } } ] } """));

        Assert.Equal(
            [
                "drum_bus.through[0].compress.ratoi: 'ratoi' is not a setting of compress. Did you mean 'ratio'?",
                "drum_bus.through[0].compress.key: there is no track or bus called 'nobody'. The chain has 'in', 'out' and 'kick'.",
            ],
            words);
    }

    private static IReadOnlyList<string> Stage(string stage) => Sample.Words(Sample.Through($"[ {stage} ]"));
}
