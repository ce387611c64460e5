using DrumPrint.Beginning;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Beginning;

/// <summary>The raw files of the invented session, under their own names and others.</summary>
[Collection(DemoGroup.Name)]
public sealed class BeginnerTests(DemoFixture demo) : IDisposable
{
    private static readonly string[] Roles =
    [
        "Kick", "Kick", "Kick", "Snare", "Snare", "Snare", "Hat", "RackTom", "FloorTom", "FloorTom", "Overhead", "Overhead", "Kit", "Kit",
        "Room", "Room", "Room", "Room", "Room", "Percussion", "Percussion",
    ];

    private static readonly int[] Inverted = [2, 5, 9];

    private readonly string _folder = Directory.CreateTempSubdirectory("drumprint-begin-").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Without_its_chain_every_microphone_of_the_demo_comes_to_its_place()
    {
        var begun = Begin([.. demo.Files.Tracks.Select(t => Path.GetFileName(t))]);

        Assert.Empty(begun.LeftOut);
        Assert.Equal(Roles, begun.Tracks.OrderBy(t => t.File, StringComparer.Ordinal).Select(t => t.Role));
        var (own, made) = (ChainReader.Read(demo.Files.Chain), ChainReader.Read(begun.ChainPath));
        Assert.All(own.Tracks, track =>
        {
            var mine = Assert.Single(made.Tracks, t => Path.GetFileName(t.File) == Path.GetFileName(track.File));
            Assert.Equal(track.IsInverted, mine.IsInverted);
            Assert.InRange(Frames(mine) - Frames(track), -1, 1);
        });
        Assert.Equal(["crushed room", "far room", "front alone", "hat", "impact", "kick", "knee alone", "near room", "overheads", "percussion", "snare", "snare loose", "toms"], made.Buses.Select(b => b.Name).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("grosse caisse dedans|grosse caisse dehors|sub grosse caisse|caisse claire dessus|caisse claire côté|caisse claire dessous|charley|tom aigu|tom basse|tom basse dessous|aérien gauche|aérien droite|front|knee|salle proche gauche|salle proche droite|salle loin gauche|salle loin droite|hall|cabasa|claps", 21)]
    [InlineData("BDi|BDo|BDsub|SDt|SDs|SDb|HH|T1|FT|FTb|OH-L|OH-R|FOK|KN|RM1L|RM1R|RM2L|RM2R|RMM|CAB|CLP", 17)]
    [InlineData("Audio_01|Audio_02|Audio_03|Audio_04|Audio_05|Audio_06|Audio_07|Audio_08|Audio_09|Audio_10|Audio_11|Audio_12|Audio_13|Audio_14|Audio_15|Audio_16|Audio_17|Audio_18|Audio_19|Audio_20|Audio_21", 9)]
    [InlineData("Snare Top|Kick Out|Kick Sub|Kick In|Snare Side|Snare Bot|Floor Tom|Rack Tom|HiHat|Floor Under|OH L|OH R|Front|Knee|Room L|Room R|Far L room|Far R room|Hall|Cabasa|Claps", 12)]
    public void Under_any_names_nothing_is_put_in_a_wrong_place(string names, int sure)
    {
        string[] files = [.. names.Split('|').Select(n => n + ".wav")];

        var begun = Begin(files);

        Assert.All(begun.Tracks, t => Assert.Equal(Roles[Array.IndexOf(files, t.File)], t.Role));
        Assert.All(begun.Tracks.Where(t => t.IsInverted), t => Assert.Contains(Array.IndexOf(files, t.File), Inverted));
        Assert.Equal(files.Length, begun.Tracks.Count + begun.LeftOut.Count);
        Assert.InRange(begun.Tracks.Count, sure, files.Length);
    }

    [Fact]
    public void A_file_of_many_channels_gives_its_microphones_by_the_names_it_has()
    {
        string[] names = ["Kick In", "Kick Out", "Snare Top", "Snare Bottom", "Hi-Hat", "Rack Tom", "Floor Tom", "OH L", "OH R"];
        int[] demos = [0, 1, 3, 5, 6, 7, 8, 10, 11];
        double[][] channels = [.. demos.Select(d => TestSession.ReadFile(demo.Files.Tracks[d])[0])];
        ManyChannels.Write(Path.Combine(_folder, "take.wav"), channels, names);

        var begun = Beginner.Begin(_folder, (_, _) => { }, CancellationToken.None);

        Assert.Empty(begun.LeftOut);
        Assert.Equal(demos.Select(d => Roles[d]), begun.Tracks.Select(t => t.Role));
        Assert.Equal("take.wav channel 4 (Snare Bottom)", begun.Tracks[3].File);
        var made = ChainReader.Read(begun.ChainPath);
        Assert.Equal(Enumerable.Range(1, 9).Select(n => (TrackChannel?)new TrackChannel(n, null)), made.Tracks.Select(t => t.Channel));
        Assert.True(made.Tracks[3].IsInverted);
        Assert.InRange(Frames(made.Tracks[0]), 52, 54); // the kick's own distance, as from files of its own
        Assert.Contains("the file calls it Snare Bottom", File.ReadAllText(begun.ChainPath), StringComparison.Ordinal);
        Assert.Contains("holds 9 channels", Assert.Single(begun.Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_person_says_of_numbered_files_brings_every_one_to_its_place()
    {
        string[] said =
        [
            "kick in", "kick out", "kick sub", "snare top", "snare side", "snare bottom", "hat", "rack tom", "floor tom", "floor tom under", "oh l", "oh r", "front", "knee",
            "near room l", "near room r", "far room l", "far room r", "hall", "cabasa", "claps",
        ];
        string[] files = [.. Enumerable.Range(1, 21).Select(n => $"{n:0000}.wav")];

        // By path, by name, and in any letters.
        var begun = Begin(files, [.. said.Select((s, i) => i % 2 == 0 ? $"{files[i]}={s}" : $"{i + 1:0000} = {s.ToUpperInvariant()}")]);

        Assert.Empty(begun.LeftOut);
        Assert.Equal(Roles, begun.Tracks.OrderBy(t => t.File, StringComparer.Ordinal).Select(t => t.Role));
        Assert.Equal(Inverted.Select(i => files[i]), begun.Tracks.Where(t => t.IsInverted).Select(t => t.File).Order(StringComparer.Ordinal));
        Assert.Contains("you say so", File.ReadAllText(begun.ChainPath), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0003.wav", "write the file and what it is")]
    [InlineData("0003.wav=thing", "thing is no microphone of a kit that is known here")]
    [InlineData("0099.wav=snare top", "there is no such sound file here. Did you mean ")]
    public void What_is_said_of_no_file_or_says_nothing_is_refused(string said, string told)
    {
        var refused = Assert.Throws<UsageException>(() => Begin([.. Enumerable.Range(1, 21).Select(n => $"{n:0000}.wav")], [said]));

        Assert.Contains(told, refused.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder, "*.json"));
    }

    [Fact]
    public void A_folder_that_has_a_chain_is_left_alone()
    {
        var begun = Begin([.. demo.Files.Tracks.Select(t => Path.GetFileName(t))]);
        var before = File.ReadAllBytes(begun.ChainPath);

        Assert.Throws<UsageException>(() => Beginner.Begin(_folder, (_, _) => { }, CancellationToken.None));

        Assert.Equal(before, File.ReadAllBytes(begun.ChainPath));
    }

    private static long Frames(Track track) => track.Delay.ToFrames(48000, 20);

    private BegunSession Begin(string[] names, string[]? called = null)
    {
        foreach (var (from, to) in demo.Files.Tracks.Zip(names))
        {
            File.Copy(from, Path.Combine(_folder, to));
        }

        return Beginner.Begin(_folder, (_, _) => { }, CancellationToken.None, called: called);
    }
}
