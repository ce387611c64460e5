using DrumPrint.Chains;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

public sealed class ChainMistakeTests
{
    [Theory]
    [InlineData("5", "song: 'song' is the number 5; it takes a group in { } with at least title, code and rate_hz.")]
    [InlineData("""{ "title": "A", "code": "A" }""", "song.rate_hz: 'rate_hz' is missing; the song needs a whole number from 8000 to 384000 Hz.")]
    [InlineData("""{ "title": " ", "code": "A", "rate_hz": 48000 }""", "song.title: 'title' is empty; it takes text in quotes.")]
    [InlineData("""{ "title": "A", "code": "Slow ferry/2", "rate_hz": 48000 }""", "song.code: 'code' is 'Slow ferry/2', but it becomes part of a file name: letters A to Z and a to z, digits and - only, up to 60 characters. Try 'SlowFerry2'.")]
    [InlineData("""{ "title": "A", "code": "A", "rate_hz": 44.1 }""", "song.rate_hz: 'rate_hz' is 44.1 Hz; it takes a whole number from 8000 to 384000 Hz. Nearest: 8000. If kHz were meant: 44100.")]
    [InlineData("""{ "title": "A", "code": "A", "rate_hz": "48k" }""", "song.rate_hz: 'rate_hz' is the text \"48k\"; it takes a whole number from 8000 to 384000 Hz. Write the bare number: 48000.")]
    [InlineData("""{ "title": "A", "code": "A", "rate_hz": "44,1 kHz" }""", "song.rate_hz: 'rate_hz' is the text \"44,1 kHz\"; it takes a whole number from 8000 to 384000 Hz. Write the bare number: 44100.")]
    [InlineData("""{ "title": "A", "code": "A", "rate_hz": "48,000" }""", "song.rate_hz: 'rate_hz' is the text \"48,000\"; it takes a whole number from 8000 to 384000 Hz. Write the bare number: 48000.")]
    public void Mistakes_in_the_song_are_told_with_the_way_out(string song, string expected) => Assert.Equal([expected], Sample.Words(Sample.Chain(song: song)));

    // Nobody draws such a chain; a received one must not end the program.
    [Fact]
    public void More_buses_in_a_row_than_can_be_followed_are_refused()
    {
        var buses = string.Join(", ", Enumerable.Range(0, 40_000).Reverse().Select(n => $"\"b{n}\": {{ \"from\": {{ \"{(n == 0 ? "out" : $"b{n - 1}")}\": 0 }} }}"));
        var json = $$"""
            { "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": { "out": "out.wav" },
              "buses": { {{buses}} }, "prints": [ { "number": 1, "name": "A", "bus": "b39999" } ] }
            """;

        var refused = Assert.Throws<ChainException>(() => ChainReader.Parse(json, "a.chain.json"));

        Assert.Contains("and that is too many to follow", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_tempo_map_that_is_not_there_is_told_where_the_song_names_it() => Assert.Equal(
        "song.tempo: the tempo map was not found: there is no file no.json.",
        Sample.Words(Sample.Chain(song: """{ "title": "A", "code": "A", "rate_hz": 48000, "tempo": "no.json" }"""))[0]);

    [Theory]
    [InlineData("5", "tracks.out: 'out' is the number 5; it takes the path of a file, in quotes, or a group in { }.")]
    [InlineData("{ }", "tracks.out.file: 'file' is missing; a track needs the path of a file, in quotes.")]
    [InlineData("\"raw\\\\out.wav\"", "tracks.out: 'file' has a backslash. Between folders write / on every system: raw/out.wav.")]
    [InlineData("""{ "file": "a", "delay_samples": 1 }""", "tracks.out.delay_samples: 'delay_samples' is not a key of a track. Did you mean 'delay_frames' (frames)?")]
    [InlineData("""{ "file": "a", "delay": 1 }""", "tracks.out.delay: 'delay' is not a key of a track. Did you mean 'delay_ms' (milliseconds)?")]
    [InlineData("""{ "file": "a", "microphone": 1 }""", "tracks.out.microphone: 'microphone' is not a key of a track; it takes file, files, channel, level_db, polarity, delay_ms, delay_frames, delay_m, exact, latency_ms, convert, at_m, notes.")]
    [InlineData("""{ "fiel": "a" }""", "tracks.out.fiel: 'fiel' is not a key of a track. Did you mean 'file'?")]
    [InlineData("""{ "file": "a", "file": "b" }""", "tracks.out.file: 'file' is given twice; the first is on line 1.")]
    [InlineData("""{ "file": "a", "polarity": "invert" }""", "tracks.out.polarity: 'invert' is not a choice for 'polarity'; it takes normal, inverted. Did you mean 'inverted'?")]
    [InlineData("""{ "file": "a", "delay_frames": 53.4 }""", "tracks.out.delay_frames: 'delay_frames' is 53.4, which is no whole number of frames. Give 53, or add \"exact\": true to keep the part of a frame.")]
    [InlineData("""{ "file": "a", "exact": true }""", "tracks.out.exact: 'exact' goes with a delay, and there is none. Give delay_ms, delay_frames or delay_m, or take it out.")]
    [InlineData("""{ "file": "a", "delay_m": 1, "delay_ms": 1 }""", "tracks.out.delay_ms: a delay is given once; this has delay_m and delay_ms. Keep one.")]
    [InlineData("""{ "file": "a", "delay_ms": "1,52" }""", "tracks.out.delay_ms: 'delay_ms' is the text \"1,52\"; it takes a number from 0 to 1000 ms. Write the bare number: 1.52.")]
    [InlineData("""{ "file": "a", "convert": "yes" }""", "tracks.out.convert: 'convert' is the text \"yes\"; it takes true or false.")]
    [InlineData("""{ "file": "a", "level_db": null }""", "tracks.out.level_db: 'level_db' is null; it takes a number from -120 to 60 dB. Leave the key out instead.")]
    [InlineData("""{ "file": "a", "level_db": 1e999 }""", "tracks.out.level_db: 'level_db' is Infinity dB; it takes a number from -120 to 60 dB. Nearest: 60.")]
    public void Mistakes_in_a_track_are_told_with_the_way_out(string track, string expected) =>
        Assert.Equal([expected], Sample.Words(Sample.Chain(tracks: $$"""{ "in": "raw/in.wav", "out": {{track}} }""")));

    [Theory]
    [InlineData("\"\": \"x\"", "tracks.\"\": a name must not be empty and must not start or end with a space.")]
    [InlineData("\"hat \": \"x\"", "tracks.hat : a name must not be empty and must not start or end with a space.")]
    [InlineData("\"in\": \"x\"", "tracks.in: 'in' is given twice; the first is on line 1.")]
    public void Mistakes_in_a_name_are_told_with_the_way_out(string track, string expected) =>
        Assert.Equal([expected], Sample.Words(Sample.Chain(tracks: $$"""{ "in": "raw/in.wav", "out": "raw/out.wav", {{track}} }""")));

    [Theory]
    [InlineData("""{ }""", "buses.kick.from: 'from' is missing: nothing comes into this bus. Name at least one track or bus, such as \"kick in\": 0.")]
    [InlineData("""{ "from": { } }""", "buses.kick.from: nothing comes into this bus. Name at least one track or bus, such as \"kick in\": 0.")]
    [InlineData("""{ "from": { "in": { "off": true }, "out": { "off": true } } }""", "buses.kick.from: every feed of this bus is off, so nothing comes into it. Leave one of them on.")]
    [InlineData("""{ "from": { "in": { "mute": true } } }""", "buses.kick.from.in.mute: 'mute' is not a key of a feed. Did you mean 'off'?")]
    [InlineData("""{ "from": { "inn": 0 } }""", "buses.kick.from.inn: there is no track or bus called 'inn'. Did you mean 'in'?")]
    [InlineData("""{ "from": { "triangle": 0 } }""", "buses.kick.from.triangle: there is no track or bus called 'triangle'. The chain has 'in', 'out' and 'kick'.")]
    [InlineData("""{ "from": { "in": "-3 dB" } }""", "buses.kick.from.in: 'in' is the text \"-3 dB\"; it takes a number from -120 to 60 dB, or a group in { }. Write the bare number: -3.")]
    [InlineData("""{ "from": { "in": { "pan": 3 } } }""", "buses.kick.from.in.pan: 'pan' is not a key of a feed. Did you mean 'pan_pct' (per cent)?")]
    [InlineData("""{ "from": { "in": { "pan_pct": 130 } } }""", "buses.kick.from.in.pan_pct: 'pan_pct' is 130 %; it takes a number from -100 to 100 %. Nearest: 100.")]
    [InlineData("""{ "from": { "in": 0 }, "channels": 2 }""", "buses.kick.channels: 'channels' is the number 2; it takes one of \"auto\", \"mono\", \"stereo\".")]
    [InlineData("""{ "from": [ "in" ] }""", "buses.kick.from: 'from' is a list in [ ]; it takes a group in { } with one entry for each name. Such as \"from\": { \"in\": 0 }.")]
    [InlineData("""{ "from": [ ] }""", "buses.kick.from: 'from' is a list in [ ]; it takes a group in { } with one entry for each name. Such as \"from\": { \"kick in\": 0 }.")]
    [InlineData("""{ "from": { "in": "-2,5" } }""", "buses.kick.from.in: 'in' is the text \"-2,5\"; it takes a number from -120 to 60 dB, or a group in { }. Write the bare number: -2.5.")]
    public void Mistakes_in_a_bus_are_told_with_the_way_out(string bus, string expected) => Assert.Equal([expected], Sample.Words(Sample.Chain(buses: $$"""{ "kick": {{bus}} }""")));

    [Fact]
    public void A_name_for_both_a_track_and_a_bus_is_one_mistake()
    {
        var words = Sample.Words(Sample.Chain(buses: """{ "kick": { "from": { "in": 0 } }, "out": { "from": { "out": 0 } } }"""));

        Assert.Equal(["buses.out: 'out' is already the name of a track (line 1). Give the bus a name of its own, such as 'out bus'."], words);
    }

    [Theory]
    [InlineData("""{ "to_bar": 2, "from_bar": 1, "db": 3 }""", "ride[0]: a ride in bars needs a tempo map. Name one in song.tempo, or use from_s and to_s.")]
    [InlineData("""{ "db": 3 }""", "ride[0]: a ride needs from_bar and to_bar, or from_s and to_s.")]
    [InlineData("""{ "form_bar": 1, "to_s": 3, "db": 3 }""", "ride[0]: a ride runs in bars or in seconds, not both. Give from_bar and to_bar, or from_s and to_s.", "ride[0].form_bar: 'form_bar' is not a key of a ride. Did you mean 'from_bar'?")]
    [InlineData("""{ "form_s": 1, "to_s": 3, "db": 3 }""", "ride[0].form_s: 'form_s' is not a key of a ride. Did you mean 'from_s'?")]
    [InlineData("""{ "from_s": 1, "db": 3 }""", "ride[0].to_s: 'to_s' is missing; this ride has 'from_s' only.")]
    [InlineData("""{ "from_s": 1, "to_bar": 3, "db": 3 }""", "ride[0]: a ride runs in bars or in seconds, not both. Give from_bar and to_bar, or from_s and to_s.")]
    [InlineData("""{ "from_s": 4, "to_s": 2.5, "db": 3 }""", "ride[0].to_s: the ride ends at 2.5 s, but it starts at 4 s.")]
    [InlineData("""{ "from_s": 4, "to_s": 4, "db": 3 }""", "ride[0].to_s: the ride ends at 4 s, but it starts at 4 s.")]
    [InlineData("""{ "from_s": 1, "to_s": 2 }""", "ride[0].db: 'db' is missing; a ride needs a number from -120 to 60 dB.")]
    public void Mistakes_in_a_ride_are_told_with_the_way_out(string ride, params string[] expected) =>
        Assert.Equal(expected.Select(e => $"buses.kick.from.in.{e}"), Sample.Words(Sample.Chain(buses: $$"""{ "kick": { "from": { "in": { "ride": [ {{ride}} ] } } } }""")));

    [Theory]
    [InlineData("""{ "number": 1, "name": "Snare", "bus": "kick" }""", "prints[1].number: number 1 is taken by the print on line 1. Nearest free: 2.")]
    [InlineData("""{ "number": 2, "name": "KICK", "bus": "kick" }""", "prints[1].name: the name 'KICK' is taken by the print on line 1. Capitals make no difference.")]
    [InlineData("""{ "number": 90, "name": "Snare", "bus": "kick" }""", "prints[1].number: number 90 is taken by the rough before the drum bus (made unless output.rough is false). Nearest free: 89.")]
    [InlineData("""{ "number": 2, "name": "RoughWithBus", "bus": "kick" }""", "prints[1].name: the name 'RoughWithBus' is taken by the rough through the drum bus (made unless output.rough_with_bus is false). Capitals make no difference.")]
    [InlineData("""{ "number": 1.5, "name": "Snare", "bus": "kick" }""", "prints[1].number: 'number' is 1.5; it takes a whole number from 1 to 99. Nearest: 2.")]
    [InlineData("""{ "number": 2, "name": "Snare/Rasp", "bus": "kick" }""", "prints[1].name: 'name' is 'Snare/Rasp', but it becomes part of a file name: letters A to Z and a to z, digits and - only, up to 60 characters. Try 'SnareRasp'.")]
    [InlineData("""{ "number": 2, "name": "Snare", "bus": "kik" }""", "prints[1].bus: there is no bus called 'kik'. Did you mean 'kick'?")]
    [InlineData("""{ "number": 2, "name": "Snare", "bus": "out" }""", "prints[1].bus: there is no bus called 'out'. It is a track; make a bus of it and print that.")]
    [InlineData("\"Snare\"", "prints[1]: this is the text \"Snare\"; it takes a group in { } with at least number, name and bus.")]
    public void Mistakes_in_a_print_are_told_with_the_way_out(string print, string expected) =>
        Assert.Equal([expected], Sample.Words(Sample.Chain(prints: $$"""[ { "number": 1, "name": "Kick", "bus": "kick" }, {{print}} ]""")));

    [Theory]
    [InlineData("""{ "bits": "24" }""", "output.bits: 'bits' is the text \"24\"; it takes one of 16, 24, \"32f\". Write the bare number: 24.")]
    [InlineData("""{ "bits": 32 }""", "output.bits: 'bits' is the number 32; it takes one of 16, 24, \"32f\".")]
    [InlineData("""{ "dither": "tdpf" }""", "output.dither: 'tdpf' is not a choice for 'dither'; it takes auto, none, tpdf. Did you mean 'tpdf'?")]
    [InlineData("""{ "tail_s": "measured" }""", "output.tail_s: 'tail_s' is the text \"measured\"; it takes a number from 0 to 600 s.")]
    [InlineData("""{ "rough": 90 }""", "output.rough: 'rough' is the number 90; it takes a group in { }, true or false.")]
    [InlineData("""{ "rough": { "number": 1 } }""", "output.rough.number: number 1 is taken by the print on line 1. Nearest free: 2.")]
    [InlineData("""{ "click": true }""", "output.click: a click needs a tempo map. Name one in song.tempo, or take the click out.")]
    public void Mistakes_in_the_output_are_told_with_the_way_out(string output, string expected) => Assert.Equal([expected], Sample.Words(Sample.Chain(rest: $"\"output\": {output}")));

    [Theory]
    [InlineData("{ \"tracks\": 5 }", "1:1: chain: 'chain' is missing; a chain needs 1.")]
    [InlineData("{ \"chain\": 2, \"anything\": 5 }", "1:12: chain: this chain is written in format 2; this version reads format 1.")]
    [InlineData("[ ]", "1:1: a chain is a group of keys in { }; this file holds a list in [ ].")]
    public void Mistakes_of_the_whole_file_are_told_with_the_way_out(string json, string expected) => Assert.Contains(expected, Sample.Mistakes(json));

    [Fact]
    public void A_file_of_another_format_is_not_picked_to_pieces() => Assert.Single(Sample.Mistakes("{ \"chain\": 2, \"anything\": 5 }"));

    [Fact]
    public void Empty_lists_say_what_to_put_in()
    {
        var words = Sample.Words("""{ "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": { }, "buses": { }, "prints": [ ] }""");

        Assert.Equal(
            [
                "tracks: there is no track. Name at least one, such as \"kick in\": \"raw/01_KickIn.wav\".",
                "buses: there is no bus. Name at least one, such as \"kick\": { \"from\": { \"kick in\": 0 } }.",
                "prints: there is no print. Add at least one, such as { \"number\": 1, \"name\": \"Kick\", \"bus\": \"kick\" }.",
            ],
            words);
    }

    [Fact]
    public void A_file_that_is_not_there_is_named()
    {
        var exception = Assert.Throws<UnreadableFileException>(() => ChainReader.Read("no/such.chain.json"));

        Assert.Equal("no/such.chain.json: there is no such file. There is no such folder either.", exception.Message);
    }

    [Fact]
    public void A_folder_is_not_taken_for_a_file()
    {
        var exception = Assert.Throws<UnreadableFileException>(() => ChainReader.Read(Repository.Folder));

        Assert.Equal($"{Repository.Folder}: this is a folder, not a file.", exception.Message);
    }

    [Theory]
    [InlineData("""{ "ticket": 1, "engine": "0.1.0", "chain": { "chain": 1 } }""", "this is a ticket, the record of prints that were made, and no chain. To make them again: drumprint reprint song.json")]
    [InlineData("""{ "tempo_map": 1, "bars": [ ] }""", "this is a tempo map and no chain. A chain names it in song.tempo; give that chain instead.")]
    public void A_ticket_or_tempo_map_in_the_place_of_a_chain_is_told_for_what_it_is(string json, string expected)
    {
        var exception = Assert.Throws<UsageException>(() => ChainReader.Parse(json, "song.json"));

        Assert.Equal($"song.json: {expected}", exception.Message);
    }

    [Theory]
    [InlineData("buses", "busses", "busses: 'busses' is not a key of a chain. Did you mean 'buses'?")]
    [InlineData("tracks", "track", "track: 'track' is not a key of a chain. Did you mean 'tracks'?")]
    [InlineData("impulses", "impulse", "impulse: 'impulse' is not a key of a chain. Did you mean 'impulses'?")]
    [InlineData("output", "outputs", "outputs: 'outputs' is not a key of a chain. Did you mean 'output'?")]
    public void A_mistyped_part_of_a_chain_is_one_mistake_however_much_refers_to_it(string key, string typed, string expected)
    {
        var chain = Sample.Chain(
            buses: """{ "kick": { "from": { "in": 0 }, "through": [ { "convolve": { "impulse": "room" } } ] }, "all": { "from": { "kick": 0, "out": 0 } } }""",
            prints: """[ { "number": 90, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "All", "bus": "all" } ]""",
            rest: "\"impulses\": { \"room\": \"ir/room.wav\" }, \"output\": { \"rough\": false }");

        Assert.Equal([expected], Sample.Words(chain.Replace($"\"{key}\":", $"\"{typed}\":", StringComparison.Ordinal)));
    }

    [Fact]
    public void Without_buses_that_alone_is_told()
    {
        var chain = Sample.Chain().Replace($"\"buses\": {Sample.Buses}, ", "", StringComparison.Ordinal);

        Assert.Equal(["buses: 'buses' is missing: there is no bus. Name at least one, such as \"kick\": { \"from\": { \"kick in\": 0 } }."], Sample.Words(chain));
    }
}
