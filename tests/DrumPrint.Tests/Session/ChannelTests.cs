using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Checking;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using DrumPrint.Planning;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Session;

/// <summary>Tracks that are one channel of a recording of many.</summary>
public sealed class ChannelTests : IDisposable
{
    private const int Frames = 30000;
    private static readonly string[] Names = ["Kick In", "Snare Top", "Snare &amp; Hat", "OH"];

    private readonly TestSession _session = new();

    public ChannelTests()
    {
        ManyChannels.Write(Path.Combine(_session.Folder, "poly.wav"), [.. Enumerable.Range(0, 4).Select(Signal)], Names);
        for (var c = 0; c < 4; c++)
        {
            ManyChannels.Write(Path.Combine(_session.Folder, $"mono{c + 1}.wav"), [Signal(c)], []);
        }
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Channels_of_one_file_print_as_files_of_their_own()
    {
        string Tracks(Func<int, string> file) => $$"""
            "a": { {{file(1)}}, "delay_frames": 7, "level_db": -3 }, "b": { {{file(3)}}, "polarity": "inverted" }, "c": { {{file(2)}}, "delay_ms": 0.51, "exact": true }
            """;

        _session.Print(Chain(Tracks(n => $"\"file\": \"poly.wav\", \"channel\": {n}")));
        var channels = _session.Files().Where(f => f.EndsWith(".wav", StringComparison.Ordinal)).ToDictionary(f => f, f => _session.Read(f));
        _session.Print(Chain(Tracks(n => $"\"file\": \"mono{n}.wav\"")));

        Assert.Equal(4, channels.Count);
        Assert.All(channels, c => Audio.Planar.AssertSame(c.Value, _session.Read(c.Key)));
    }

    [Fact]
    public void A_channel_goes_by_its_name_whatever_the_case_of_its_letters()
    {
        var inputs = Open("\"a\": { \"file\": \"poly.wav\", \"channel\": \"snare & hat\" }, \"b\": { \"file\": \"poly.wav\", \"channel\": \"OH\" }");

        Assert.Equal((2, 3), (inputs.Tracks["a"].Channel, inputs.Tracks["b"].Channel));
    }

    [Fact]
    public void A_file_is_read_once_for_all_its_channels_and_no_more_than_they_are()
    {
        var chain = Chain("\"a\": { \"file\": \"poly.wav\", \"channel\": 1 }, \"b\": { \"file\": \"poly.wav\", \"channel\": 4 }, \"c\": { \"file\": \"poly.wav\", \"channel\": 2, \"latency_ms\": 1 }");
        using var graph = new GraphBuilder(chain, SessionInputs.Open(chain, ReadPolicy.Default), Frames, AudioHashes.None, shelf: null);
        chain.Tracks.ToList().ForEach(t => graph.Source(t.Name));

        Assert.Same(graph.Sources["a"], graph.Sources["b"]);
        Assert.NotSame(graph.Sources["a"], graph.Sources["c"]); // it begins at another frame
        Assert.Equal(2, graph.Sources["a"].Channels);
    }

    [Fact]
    public void The_ticket_has_the_hash_of_the_file_and_the_print_is_made_again_from_it()
    {
        var report = _session.Print(Chain("\"a\": { \"file\": \"poly.wav\", \"channel\": \"Kick In\" }, \"b\": { \"file\": \"poly.wav\", \"channel\": 2 }, \"c\": { \"file\": \"poly.wav\", \"channel\": 3 }"), new PrintOptions { Store = new StoreOptions(Path.Combine(_session.Folder, "store")) });
        var ticket = Ticket.Read(Path.Combine(_session.Prints, "Test_v1.ticket.json"));

        Assert.All(ticket.Tracks, t => Assert.Equal((FileHash.AudioSha256(Path.Combine(_session.Folder, "poly.wav")), 4), (t.AudioSha256, t.Channels)));
        Assert.Equal([new TrackChannel(0, "Kick In"), new TrackChannel(2, null), new TrackChannel(3, null)], ticket.Chain.Tracks.Select(t => t.Channel!.Value));
        Assert.Empty(report.Findings);
        Assert.All(Reprinter.Reprint(_session.Prints, new ReprintOptions()).Prints, p => Assert.Equal(ReprintOutcome.Identical, p.Outcome));
    }

    [Fact]
    public void A_run_with_a_store_tells_channels_of_one_file_apart()
    {
        var options = new PrintOptions { Store = new StoreOptions(Path.Combine(_session.Folder, "store")) };
        string Tracks(int n) => $"\"a\": {{ \"file\": \"poly.wav\", \"channel\": {n} }}, \"b\": {{ \"file\": \"poly.wav\", \"channel\": 2 }}, \"c\": {{ \"file\": \"poly.wav\", \"channel\": 3 }}";
        _session.Print(Chain(Tracks(1)), options);

        _session.Print(Chain(Tracks(4)), options);

        Assert.Equal(Signal(3).Take(100).Select(s => (double)(float)s), _session.Read("01_A_Test_v1.wav")[0].Take(100));
    }

    [Theory]
    [InlineData("\"channel\": 5", "has 4 channels, so there is no channel 5. Nearest: 4.")]
    [InlineData("\"channel\": \"Snare Tip\"", "has no channel called 'Snare Tip'. Did you mean 'Snare Top'?")]
    [InlineData("\"channel\": \"Glockenspiel\"", "has no channel called 'Glockenspiel'. It has")]
    [InlineData("\"level_db\": 0", "has 4 channels; a track is mono or stereo. Say which channel it is, such as \"channel\": 1: 1 is 'Kick In', 2 is 'Snare Top'")]
    public void A_channel_that_is_not_there_is_told_with_those_that_are(string keys, string message)
    {
        var e = Assert.Throws<InputException>(() => Open($"\"a\": {{ \"file\": \"poly.wav\", {keys} }}, \"b\": \"mono1.wav\""));

        Assert.Contains($"track 'a': poly.wav: {message}", Assert.Single(e.Problems), StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_that_the_file_does_not_give_or_gives_twice_is_told()
    {
        ManyChannels.Write(Path.Combine(_session.Folder, "twice.wav"), [Signal(0), Signal(1), Signal(2)], ["Tom", "Hat", "TOM"]);

        string Problem(string file, string name) => Assert.Throws<InputException>(() => Open($"\"a\": {{ \"file\": \"{file}\", \"channel\": \"{name}\" }}, \"b\": \"mono1.wav\"")).Message;

        Assert.Contains("gives its 1 channel no names, so 'Kick' cannot be found. Give the channel's number, from 1.", Problem("mono1.wav", "Kick"), StringComparison.Ordinal);
        Assert.Contains("calls channels 1 and 3 'tom'. Give the number", Problem("twice.wav", "tom"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<BWFXML><TRACK_LIST><TRACK><INTERLEAVE_INDEX>1</INTERLEAVE_INDEX><NAME>Kick</NAME></TRACK>")]
    [InlineData("<!DOCTYPE x [<!ENTITY e \"Kick\">]><BWFXML><TRACK_LIST><TRACK><INTERLEAVE_INDEX>1</INTERLEAVE_INDEX><NAME>&e;</NAME></TRACK></TRACK_LIST></BWFXML>")]
    [InlineData("<BWFXML><TRACK_LIST><TRACK><INTERLEAVE_INDEX>99</INTERLEAVE_INDEX><NAME>Kick</NAME></TRACK></TRACK_LIST></BWFXML>")]
    [InlineData("")]
    public void Names_that_cannot_be_read_are_none(string text)
    {
        var path = Path.Combine(_session.Folder, "odd.wav");
        using (var writer = WaveWriter.Create(path, new Dsp.AudioFormat(48000, 1), SampleEncoding.Pcm16, null, 1, [new WaveChunk("iXML", System.Text.Encoding.UTF8.GetBytes(text))]))
        {
            writer.Write(new Dsp.AudioBlock([new double[1]], 0, 1));
            writer.Finish(1);
            writer.Publish();
        }

        using var reader = AudioReader.Open(path);
        Assert.Equal([""], ChannelNames.Of(reader));
    }

    [Fact]
    public void Two_tracks_of_one_channel_are_told_and_two_channels_of_one_file_are_not()
    {
        var report = _session.Print(Chain("\"a\": { \"file\": \"poly.wav\", \"channel\": 1 }, \"b\": { \"file\": \"poly.wav\", \"channel\": 2 }, \"c\": { \"file\": \"poly.wav\", \"channel\": \"Snare Top\" }"));

        Assert.StartsWith("Tracks 'b' and 'c' are the same channel 2 of the file, poly.wav.", Assert.Single(report.Findings), StringComparison.Ordinal);
    }

    [Fact]
    public void A_check_looks_at_each_channel_by_itself()
    {
        var hot = Signal(1);
        Array.Fill(hot, 1.0, 5000, 6);
        ManyChannels.Write(Path.Combine(_session.Folder, "poly.wav"), [Signal(0), hot, Signal(0), Signal(3)], Names);
        File.WriteAllText(Path.Combine(_session.Folder, "song.chain.json"), $$"""
            { "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": { "kick": { "file": "poly.wav", "channel": 1 }, "snare": { "file": "poly.wav", "channel": "snare top" }, "tom": { "file": "poly.wav", "channel": 3 }, "gong": { "file": "poly.wav", "channel": 9 } },
              "buses": { "all": { "from": { "kick": 0, "snare": 0, "tom": 0 } } }, "prints": [ { "number": 1, "name": "All", "bus": "all" } ] }
            """);

        var findings = Checker.Check(Path.Combine(_session.Folder, "song.chain.json"), new CheckOptions()).Findings;

        Assert.Equal("snare", Assert.Single(findings, f => f.Rule.Id == "C1").Track);
        Assert.Equal("tom", Assert.Single(findings, f => f.Rule.Id == "D3").Track);
        Assert.Contains(findings, f => f.Track == "gong" && f.Sentence.Contains("there is no channel 9", StringComparison.Ordinal));
    }

    private static double[] Signal(int c)
    {
        var noise = new CounterNoise((ulong)c + 40);
        return [.. Enumerable.Range(0, Frames).Select(n => 0.2 * noise.Bipolar(n) * Math.Exp(-(n % 6000) / 900.0))];
    }

    private SessionInputs Open(string tracks) => SessionInputs.Open(Chain(tracks), ReadPolicy.Default);

    private Chain Chain(string tracks)
    {
        var buses = tracks.Contains("\"c\":", StringComparison.Ordinal) ? ("\"bus a\": { \"from\": { \"a\": 0 } }, \"bus b\": { \"from\": { \"b\": 0, \"c\": -6 } }", "bus b") : ("\"bus a\": { \"from\": { \"a\": 0 } }, \"bus b\": { \"from\": { \"b\": 0 } }", "bus b");
        return _session.Chain($$"""
            "tracks": { {{tracks}} }, "buses": { {{buses.Item1}} },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a", "level_db": 0 }, { "number": 2, "name": "B", "bus": "bus b" }, { "number": 3, "name": "Extra", "bus": "bus a", "optional": true } ],
            "output": { "bits": "32f", "tail_s": 0 }
            """);
    }
}
