using System.Text;
using DrumPrint.Audio;
using DrumPrint.Carrying;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Carrying;

/// <summary>The chain of the invented session, carried to a next song that has the same takes under other names.</summary>
[Collection(DemoGroup.Name)]
public sealed class CarrierTests(DemoFixture demo) : IDisposable
{
    private static readonly string[] Names = ["Kick In", "Kick Out", "Kick Sub", "Snare Top", "Snare Side", "Snare Bottom", "Hi-Hat"];

    private readonly string _folder = Directory.CreateTempSubdirectory("drumprint-carry-").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Recipe_and_microphones_go_along_and_what_is_the_old_songs_stays()
    {
        Takes(Names);

        var carried = Carry(Chain);

        var (old, now) = (ChainReader.Read(Chain), ChainReader.Read(carried.ChainPath));
        Assert.True(carried.IsWhole);
        Assert.Empty(carried.Moved);
        Assert.Equal(("Next Song", "NextSong", 1), (now.Song.Title, now.Song.Code, now.Song.Version));
        Assert.Equal(old.Tracks.Select(t => (t.Name, t.IsInverted, t.Delay, t.At)), now.Tracks.Select(t => (t.Name, t.IsInverted, t.Delay, t.At)));
        Assert.Equal(Names.Select(n => n + ".wav"), now.Tracks.Select(t => t.File));
        Assert.Equal(Recipe(FoundNumbers.Without(old)), Recipe(now));
        Assert.Null(Assert.Single(now.Buses[1].Stages).Settings.Wanted.Single().Value.Found);
        Assert.Empty(now.Accepted);
        Assert.Null(now.Reference);
        Assert.Contains("The song's own mix was left behind: it is the old song's.", carried.LeftBehind);
        Assert.Empty(now.Buses.SelectMany(b => b.Feeds).SelectMany(f => f.Rides));
        Assert.Equal(3, carried.LeftBehind.Count(l => l.Contains("ride of", StringComparison.Ordinal) || l.Contains("signed off", StringComparison.Ordinal) || l.Contains("found for goals", StringComparison.Ordinal)));
        Assert.Contains("// what the recipe is about", File.ReadAllText(carried.ChainPath), StringComparison.Ordinal);
        SessionPrinter.Print(now, new PrintOptions());
    }

    [Fact]
    public void A_microphone_that_stands_elsewhere_or_is_turned_over_is_told()
    {
        Takes(Names, (name, samples) => name switch
        {
            "Kick Out" => [.. new double[48], .. samples[..^48]], // 1 ms: 0.34 m
            "Snare Bottom" => [.. samples.Select(s => -s)],
            _ => samples,
        });

        var carried = Carry(Chain);

        Assert.Contains(carried.Moved, m => m.StartsWith("kick out hears kick in 1.00 ms later than in Slow Ferry", StringComparison.Ordinal) && m.Contains("0.34 m farther", StringComparison.Ordinal));
        Assert.Contains(carried.Moved, m => m.StartsWith("snare bottom is the other way up against snare top", StringComparison.Ordinal));
        Assert.Equal(2, carried.Moved.Count);
    }

    [Fact]
    public void A_missing_file_is_told_and_named_where_it_can_be_brought()
    {
        Takes([.. Names.Take(6), "Cowbell"]);

        var carried = Carry(Chain);

        Assert.False(carried.IsWhole);
        Assert.Equal("hat", Assert.Single(carried.Tracks, t => t.Now is null).Name);
        Assert.Contains(carried.Unused, f => f.StartsWith("Cowbell.wav", StringComparison.Ordinal));
        Assert.Contains("07_", Assert.Single(ChainReader.ReadSettings(carried.ChainPath, ReadPolicy.Default).Tracks, t => t.Name == "hat").File, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_the_old_takes_the_new_ones_are_held_against_the_chains_delays()
    {
        Takes(Names);
        var lone = Path.Combine(_folder, "Lone", "Lone.chain.json");
        Directory.CreateDirectory(Path.GetDirectoryName(lone)!);
        File.Copy(Chain, lone);

        var carried = Carrier.Carry(lone, Next, null, (_, _) => { }, CancellationToken.None);

        Assert.Contains(carried.Notes, n => n.Contains("held against the chain's delays alone", StringComparison.Ordinal));
        Assert.Empty(carried.Moved);
    }

    [Fact]
    public void At_another_rate_delays_in_frames_last_as_long()
    {
        var folder = Path.Combine(_folder, "Old");
        Directory.CreateDirectory(folder);
        var chain = Path.Combine(folder, "Old.chain.json");
        File.WriteAllText(chain, """
            { "chain": 1, "song": { "title": "Old", "code": "Old", "rate_hz": 48000 }, "tracks": { "kick in": { "file": "kick in.wav", "delay_frames": 53 }, "snare top": "snare top.wav" },
              "buses": { "kit": { "from": { "kick in": { "delay_frames": 1.5, "exact": true }, "snare top": 0 } } }, "prints": [ { "number": 1, "name": "Kit", "bus": "kit" } ] }
            """);
        Directory.CreateDirectory(Next);
        foreach (var name in new[] { "kick in", "snare top" })
        {
            using var writer = WaveWriter.Create(Path.Combine(Next, name + ".wav"), new AudioFormat(96000, 1), SampleEncoding.Pcm24, null, 9600);
            writer.Write(new AudioBlock([new double[9600]], 0, 9600));
            writer.Finish(9600);
            writer.Publish();
        }

        var now = ChainReader.Read(Carry(chain).ChainPath);

        Assert.Equal((96000, 106.0, 3.0), (now.Song.RateHz, now.Tracks[0].Delay.Amount, now.Buses[0].Feeds[0].Delay.Amount));
    }

    [Fact]
    public void Nothing_is_replaced_and_a_folder_of_other_things_is_refused()
    {
        Takes(["Cowbell", "Triangle", "Voice 1", "Voice 2", "Voice 3", "Voice 4", "Voice 5"]);
        Assert.Contains("none of the 7 files is surely a track", Assert.Throws<UsageException>(() => Carry(Chain)).Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(Next, "*.json"));

        File.WriteAllText(Path.Combine(Next, "Old.chain.json"), "mine");
        Assert.Contains("carry replaces nothing", Assert.Throws<UsageException>(() => Carry(Chain)).Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(Path.Combine(Next, "Old.chain.json")));
    }

    private string Next => Path.Combine(_folder, "Next Song");

    // A chain of seven of the demo's takes, with goals, rides, places and comments.
    private string Chain
    {
        get
        {
            var path = Path.Combine(_folder, "Slow Ferry", "SlowFerry.chain.json");
            if (File.Exists(path))
            {
                return path;
            }

            Directory.CreateDirectory(Path.Combine(_folder, "Slow Ferry"));
            string[] tracks = ["kick in", "kick out", "kick sub", "snare top", "snare side", "snare bottom", "hat"];
            var files = demo.Files.Tracks.Take(6).Append(demo.Files.Tracks[6]).ToList();
            files.ForEach(f => File.Copy(f, Path.Combine(_folder, "Slow Ferry", Path.GetFileName(f))));
            var text = new StringBuilder("// what the recipe is about\n{ \"chain\": 1, \"song\": { \"title\": \"Slow Ferry\", \"code\": \"SlowFerry\", \"rate_hz\": 48000, \"version\": 4 },\n  \"tracks\": {\n");
            for (var i = 0; i < tracks.Length; i++)
            {
                var file = Path.GetFileName(files[i]);
                text.Append(i switch
                {
                    0 => $"    \"{tracks[i]}\": {{ \"file\": \"{file}\", \"delay_ms\": 1.1, \"at_m\": [0, 0.3, 0.4] }},\n",
                    2 or 5 => $"    \"{tracks[i]}\": {{ \"file\": \"{file}\", \"polarity\": \"inverted\" }}, // upside down\n",
                    _ => $"    \"{tracks[i]}\": \"{file}\",\n",
                });
            }

            text.Append("""
                  },
                  "buses": {
                    "kick": { "from": { "kick in": { "level_db": -1, "ride": [ { "from_s": 1, "to_s": 2, "db": -2 } ] }, "kick out": -3, "kick sub": -6 } },
                    "snare": { "from": { "snare top": 0, "snare side": -6, "snare bottom": -8, "hat": { "level_db": -20, "off": true } }, "through": [ { "compress": { "threshold_db": { "for_reduction_db": 4, "found_db": -17.3 }, "ratio": 4 } } ] },
                  },
                  "prints": [ { "number": 1, "name": "Kick", "bus": "kick", "level_db": -12 }, { "number": 2, "name": "Snare", "bus": "snare", "level_db": -12 } ],
                  "reference": "mix/ferry.wav",
                  "accepted": [ { "rule": "C1", "track": "snare side", "why": "meant" } ],
                }
                """);
            File.WriteAllText(path, text.ToString());
            return path;
        }
    }

    private CarriedSession Carry(string chain) => Carrier.Carry(chain, Next, null, (_, _) => { }, CancellationToken.None);

    private void Takes(string[] names, Func<string, double[], double[]>? change = null)
    {
        Directory.CreateDirectory(Next);
        for (var i = 0; i < names.Length; i++)
        {
            var samples = TestSession.ReadFile(demo.Files.Tracks[i])[0];
            using var writer = WaveWriter.Create(Path.Combine(Next, names[i] + ".wav"), new AudioFormat(48000, 1), SampleEncoding.Float32, null, samples.Length);
            writer.Write(new AudioBlock([change?.Invoke(names[i], samples) ?? samples], 0, samples.Length));
            writer.Finish(samples.Length);
            writer.Publish();
        }
    }

    private static string Recipe(Chain chain) => ChainWriter.Canonical(chain with
    {
        Song = chain.Song with { Title = "", Code = "", Version = 1 },
        Tracks = [],
        Accepted = [],
        Reference = null,
        Buses = [.. chain.Buses.Select(b => b with { Feeds = [.. b.Feeds.Select(f => f with { Rides = [] })] })],
    });
}
