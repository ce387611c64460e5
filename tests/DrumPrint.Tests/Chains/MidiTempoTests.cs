using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Delivering;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Support;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Chains;

/// <summary>Tempo maps out of Standard MIDI Files (RP-001, 1.0), built byte by byte after its text or written by the library that writes ours.</summary>
public sealed class MidiTempoTests
{
    private static readonly byte[] End = [0, 0xFF, 0x2F, 0];

    [Theory]
    [InlineData("""{ "from_bar": 1, "metre": "4/4", "bpm": 104 }""")]
    [InlineData("""{ "from_bar": 1, "metre": "4/4", "bpm": 104 }, { "from_bar": 22, "metre": "2/4" }, { "from_bar": 23, "metre": "4/4", "bpm": 103.5 }, { "from_bar": 24, "bpm": 99.75 }""")]
    [InlineData("""{ "from_bar": 1, "metre": "7/8", "bpm": 120 }, { "from_bar": 5, "metre": "13/32", "bpm": 66.666 }""")]
    public void What_a_delivery_writes_is_read_as_the_same_map(string bars)
    {
        var map = TempoReader.Parse($$"""{ "tempo_map": 1, "bars": [ {{bars}} ], "last_bar": 84, "sections": [ { "from_bar": 1, "name": "intro" }, { "from_bar": 23, "name": "chorus 1" } ] }""", "tempo.json");

        Assert.Equal(TempoWriter.Canonical(map), TempoWriter.Canonical(Read(TempoFiles.Midi(map, "A song"))));
    }

    [Fact]
    public void A_chain_may_say_with_which_bar_a_file_begins()
    {
        var map = TempoReader.Parse("""{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 104 }, { "from_bar": 15, "metre": "2/4" } ], "last_bar": 84, "sections": [ { "from_bar": 15, "name": "chorus 1" } ] }""", "tempo.json");
        using var folder = new Support.TestSession();
        System.IO.File.WriteAllBytes(Path.Combine(folder.Folder, "song.mid"), TempoFiles.Midi(map, "A song"));
        System.IO.File.WriteAllText(Path.Combine(folder.Folder, "tempo.json"), TempoWriter.Canonical(map));
        Chain Read(string song) => folder.Chain("\"tracks\": { \"a\": \"a.wav\" }, \"buses\": { \"b\": { \"from\": { \"a\": 0 } } }, \"prints\": [ { \"number\": 1, \"name\": \"A\", \"bus\": \"b\" } ]", song);

        var read = Read("\"tempo\": \"song.mid\", \"first_bar\": 9").Song.Tempo!;

        Assert.Equal((9, 92), (read.FirstBar, read.LastBar));
        Assert.Equal(map.SecondsAtBar(15), read.SecondsAtBar(23), 9);
        Assert.Equal(new Section(23, "chorus 1"), Assert.Single(read.Sections));
        Assert.Equal(1, Read("\"tempo\": \"song.mid\"").Song.Tempo!.FirstBar);
        Assert.Contains("this tempo map says itself that it begins with bar 1", Assert.Throws<ChainException>(() => Read("\"tempo\": \"tempo.json\", \"first_bar\": 9")).Message, StringComparison.Ordinal);
    }

    // Every tempo with up to two decimals survives the format's whole microseconds.
    [Fact]
    public void Every_plain_tempo_comes_back_as_it_was()
    {
        for (var hundredths = 2000; hundredths <= 40000; hundredths += 7)
        {
            var map = new TempoMap("", [new TempoStretch(1, 4, 4, hundredths / 100.0)], [], 3);
            Assert.Equal(Math.Round(hundredths / 100.0, 2), Read(TempoFiles.Midi(map, "A")).Stretches[0].Bpm);
        }
    }

    [Fact]
    public void Tracks_of_a_file_count_together_and_other_events_are_passed_over()
    {
        var notes = Track([0, 0x90, 60, 100], [0x83, 0x60, 60, 0], [0, 0xC0, 5], [0, 0xF0, 3, 1, 2, 0xF7], [0x8E, 0x20, 0x80, 60, 0], End);
        var tempo = Track([0, 0xFF, 0x58, 4, 3, 2, 24, 8], [0, 0xFF, 0x51, 3, 0x07, 0xA1, 0x20], End);

        var map = Read(File(1, 96, tempo, notes));

        // 480 + 1824 ticks of 96 in a quarter note are 24 quarters: eight bars of 3/4.
        Assert.Equal([new TempoStretch(1, 3, 4, 120)], map.Stretches);
        Assert.Equal(8, map.LastBar);
    }

    [Fact]
    public void A_file_that_says_nothing_is_in_four_four_at_120_and_goes_on()
    {
        var map = Read(File(0, 480, Track(End)));

        Assert.Equal([new TempoStretch(1, 4, 4, 120)], map.Stretches);
        Assert.Equal(9999, map.LastBar);
    }

    [Fact]
    public void A_bar_in_which_the_tempo_changes_is_as_long_as_in_the_file()
    {
        // 4/4 at 120; at beat 3 of bar 2 it goes to 60: that bar takes 1 + 2 s.
        var map = Read(File(0, 1, Track([6, 0xFF, 0x51, 3, 0x0F, 0x42, 0x40], [10, 0xFF, 0x2F, 0])));

        Assert.Equal([0, 2, 5, 9], new[] { 1, 2, 3, 4 }.Select(b => Math.Round(map.SecondsAtBar(b), 9)));
        Assert.Contains("inside 1 bar (the first is bar 2)", map.Remark, StringComparison.Ordinal);
    }

    // Found by the fuzzer: the stretch behind such a bar began past the song's end.
    [Fact]
    public void A_change_inside_the_last_bar_leaves_the_map_whole()
    {
        // 4/4 at 120, at beat 3 of bar 2 to 60, and the file ends with that bar.
        var map = Read(File(0, 1, Track([6, 0xFF, 0x51, 3, 0x0F, 0x42, 0x40], [2, 0xFF, 0x2F, 0])));

        Assert.Equal(2, map.LastBar);
        Assert.Equal([1, 2], map.Stretches.Select(s => s.FromBar));
        Assert.Equal(5, map.SecondsAtBar(3), 9);
    }

    [Fact]
    public void A_hundred_thousand_changes_take_no_time()
    {
        byte[] change = [1, 0xFF, 0x51, 3, 0x07, 0xA1, 0x20, 0, 0xFF, 0x06, 1, (byte)'a'];
        byte[] metre = [0, 0xFF, 0x58, 4, 4, 2, 24, 8];
        var bytes = File(0, 10, Track([.. Enumerable.Repeat(change, 100_000).SelectMany(c => c)], metre, End));
        var timer = System.Diagnostics.Stopwatch.StartNew();

        var map = Read(bytes);

        Assert.Equal((2501, 120), (map.Sections.Count, map.Stretches[^1].Bpm));
        Assert.InRange(timer.Elapsed.TotalSeconds, 0, 5);
    }

    public static TheoryData<string, byte[], string> Broken => new()
    {
        { "header", Ascii("MThd\0\0\0\u0006"), "breaks off inside its header" },
        { "three songs", File(2, 480, Track(End)), "of type 2" },
        { "film", Join(Ascii("MThd"), Big(6, 4), Big(0, 2), Big(1, 2), [0xE7, 0x28]), "frames of film" },
        { "cut", File(0, 480, Track(End))[..^3], "cut short" },
        { "length", File(0, 480, Track([0, 0xFF, 0x06, 0xFF, 0xFF, 0xFF, 0x7F])), "is broken: at byte" },
        { "status", File(0, 480, Track([0, 0x40, 0x40], End)), "is broken: at byte" },
        { "metre inside a bar", File(0, 1, Track([5, 0xFF, 0x58, 4, 3, 2, 24, 8], End)), "the metre changes in the middle of bar 2" },
        { "slow", File(0, 1, Track([0, 0xFF, 0x51, 3, 0xFF, 0xFF, 0xFF], End)), "the tempo in bar 1 is 3.576 BPM; 20 to 400" },
        { "no time", File(0, 1, Track([0, 0xFF, 0x51, 3, 0, 0, 0], End)), "20 to 400" },
        { "beats", File(0, 480, Track([0, 0xFF, 0x58, 4, 40, 2, 24, 8], End)), "a metre of 40 beats" },
        { "far", File(0, 1, Track([0xFF, 0xFF, 0xFF, 0x7F, 0xFF, 0x51, 3, 0x07, 0xA1, 0x20], End)), "past bar 9999" },
        { "thirty-seconds", File(0, 3, Track([0, 0xFF, 0x58, 4, 1, 5, 24, 8], End)), "1/32 is no whole number of ticks" },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void A_file_that_gives_no_map_is_refused_with_the_reason(string kind, byte[] bytes, string words)
    {
        var e = Assert.Throws<UnreadableFileException>(() => TempoReader.ReadMidi(bytes, kind + ".mid", "song.mid"));

        Assert.StartsWith(kind + ".mid: ", e.Message, StringComparison.Ordinal);
        Assert.Contains(words, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chain_names_a_midi_file_and_prints_its_click()
    {
        using var session = new TestSession();
        session.Track("a.wav", Signals.Hits(5 * 48000, 1));
        var map = new TempoMap("", [new TempoStretch(1, 4, 4, 104), new TempoStretch(2, 3, 4, 90)], [], 3);
        const string Body = """
            "tracks": { "a": "a.wav" }, "buses": { "all": { "from": { "a": { "level_db": -9, "ride": [ { "from_bar": 2, "to_bar": 2, "db": 3 } ] } } } },
            "prints": [ { "number": 1, "name": "A", "bus": "all" } ], "output": { "click": true }
            """;
        System.IO.File.WriteAllText(Path.Combine(session.Folder, "tempo.json"), TempoWriter.Canonical(map));
        System.IO.File.WriteAllBytes(Path.Combine(session.Folder, "song.mid"), TempoFiles.Midi(map, "A"));

        session.Print(session.Chain(Body, "\"tempo\": \"tempo.json\""));
        var text = session.Files().Where(f => f.EndsWith(".wav", StringComparison.Ordinal)).ToDictionary(f => f, f => session.Read(f));
        session.Print(session.Chain(Body, "\"tempo\": \"song.mid\""));

        Assert.Equal(3, text.Count);
        Assert.All(text, t => Planar.AssertSame(t.Value, session.Read(t.Key)));
    }

    [Fact]
    public void A_broken_midi_file_is_told_at_the_key_that_names_it()
    {
        using var session = new TestSession();
        System.IO.File.WriteAllBytes(Path.Combine(session.Folder, "song.mid"), File(2, 480, Track(End)));

        var e = Assert.Throws<ChainException>(() => session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "all": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "all" } ]
            """, "\"tempo\": \"song.mid\""));

        Assert.Equal("song.tempo", Assert.Single(e.Problems).Place);
        Assert.Contains("of type 2", e.Message, StringComparison.Ordinal);
    }

    private static TempoMap Read(byte[] bytes) => TempoReader.ReadMidi(bytes, "song.mid", "tempo.json") is var map ? new TempoMap("tempo.json", map.Stretches, map.Sections, map.LastBar) { Remark = map.Remark } : null!;

    private static byte[] File(int format, int division, params byte[][] tracks) =>
        Join(Ascii("MThd"), Big(6, 4), Big((ulong)format, 2), Big((ulong)tracks.Length, 2), Big((ulong)division, 2), Join(tracks));

    private static byte[] Track(params byte[][] events) => Join(Ascii("MTrk"), Big((ulong)events.Sum(e => e.Length), 4), Join(events));
}
