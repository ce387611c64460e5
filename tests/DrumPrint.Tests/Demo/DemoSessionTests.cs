using DrumPrint.Audio;
using DrumPrint.Chains.Reading;
using DrumPrint.Demo;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Demo.Spaces;
using DrumPrint.Dsp;
using DrumPrint.Files;

namespace DrumPrint.Tests.Demo;

[Collection(DemoGroup.Name)]
public sealed class DemoSessionTests(DemoFixture demo) : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");

    /// <summary>The committed sums of the decoded samples hold on every machine. After an intended change of the sound,
    /// take the new list from this test's message.</summary>
    [Fact]
    public void A_second_demo_is_refused_while_the_first_writes_to_the_folder()
    {
        using var other = new FolderLock();
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "busy"));
        other.Take(Path.Combine(_folder.FullName, "busy"));

        var refused = Assert.Throws<AudioFileException>(() => DemoSession.Write(Path.Combine(_folder.FullName, "busy"), false, null, default));

        Assert.Contains("another demo is writing to this folder", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_tracks_are_the_same_bytes_on_every_machine()
    {
        var expected = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Demo", "SlowFerry.sha256"));

        var actual = string.Concat(demo.Files.Tracks.Concat(demo.Files.Impulses).Select(path =>
        {
            using var reader = AudioReader.Open(path);
            reader.Skip(reader.Info.Frames);
            return $"{reader.AudioSha256}  {Path.GetFileName(path)}\n";
        }));

        Assert.True(expected.ReplaceLineEndings("\n") == actual, actual);
    }

    [Fact]
    public void There_are_21_mono_tracks_of_24_bits_and_24_s()
    {
        Assert.Equal(21, demo.Files.Tracks.Count);
        Assert.Equal("01_KickIn.wav", Path.GetFileName(demo.Files.Tracks[0]));
        Assert.All(demo.Files.Tracks, path =>
        {
            using var reader = AudioReader.Open(path);
            Assert.Equal((1, 48000, 1152000L, SampleEncoding.Pcm24), (reader.Info.Channels, reader.Info.SampleRate, reader.Info.Frames, reader.Info.Encoding));
            Assert.Equal(1772308, reader.Info.Broadcast!.TimeReference);
        });
    }

    [Fact]
    public void The_chain_and_its_tempo_map_read_without_a_mistake()
    {
        var chain = ChainReader.Read(demo.Files.Chain);

        Assert.Equal(Enumerable.Range(1, 15), chain.Prints.Select(p => p.Number));
        Assert.Equal("Front", Assert.Single(chain.Prints, p => p.IsOptional).Name);
        Assert.Equal(21, chain.Tracks.Count);
        Assert.All(chain.Tracks, t => Assert.True(File.Exists(Path.Combine(chain.Folder, t.File)), t.File));
        Assert.Equal(SongForm.Cut.Stretches, chain.Song.Tempo!.Stretches);
        Assert.Equal(SongForm.Cut.Sections, chain.Song.Tempo.Sections);
    }

    [Fact]
    public void The_whole_songs_chain_rides_the_hall_in_all_three_choruses()
    {
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "raw"));
        File.WriteAllText(Path.Combine(_folder.FullName, SongForm.TempoFile), TempoText.Of(SongForm.Whole));

        var chain = ChainReader.Parse(ChainText.Of(full: true), Path.Combine(_folder.FullName, "SlowFerry.chain.json"));

        var rides = chain.Buses.Single(b => b.Name == "crushed hall").Feeds.Single().Rides;
        Assert.Equal([(23, 30), (47, 54), (63, 78)], rides.Select(r => ((int)r.From, (int)r.To)));
    }

    [Theory]
    [InlineData("SlowFerry.chain.json", "has been changed since demo wrote it")]
    [InlineData("raw/tempo.json", "has been changed since demo wrote it")]
    [InlineData("raw/03_KickSub.wav", "demo did not write this file")]
    [InlineData("ir/small_space.wav", "demo did not write this file")]
    public void What_is_somebody_s_own_is_never_replaced(string file, string expected)
    {
        var path = Path.Combine(_folder.FullName, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, "mine");

        var refused = Assert.Throws<UsageException>(() => DemoSession.Write(_folder.FullName, full: false, null, CancellationToken.None));

        Assert.StartsWith(path, refused.Message, StringComparison.Ordinal);
        Assert.Contains(expected, refused.Message, StringComparison.Ordinal);
        Assert.Equal([path], Directory.GetFiles(_folder.FullName, "*", SearchOption.AllDirectories));
        Assert.Equal("mine", File.ReadAllText(path));
    }

    [Fact]
    public void Demo_knows_every_sound_file_of_the_cut_as_its_own()
    {
        var unknown = demo.Files.Tracks.Concat(demo.Files.Impulses)
            .Select(path => (Place: EarlierFiles.Place(path), Hash: FileHash.Sha256(path)))
            .Where(f => !OwnFiles.Holds(f.Place, f.Hash))
            .Select(f => $"{f.Hash}  {f.Place}\n");

        Assert.True(!unknown.Any(), "Add to src/DrumPrint/Demo/SlowFerry.files.sha256, for the whole song too:\n" + string.Concat(unknown));
    }

    [Fact]
    public void Demo_knows_a_track_of_the_whole_song_as_its_own()
    {
        var claps = Microphones.All[^1];

        var path = Assert.Single(new Recorder(_folder.FullName, SongForm.Whole, 200 * SongForm.SampleRate, new EarlierFiles(new HashSet<string>()), FileSteps.Plain, null, CancellationToken.None).Record([claps]));

        Assert.True(OwnFiles.Holds($"raw/{claps.FileName}", FileHash.Sha256(path)));
    }

    [Fact]
    public void A_take_or_impulse_that_somebody_has_edited_is_kept_and_named_and_all_else_is_written()
    {
        var take = Path.Combine(_folder.FullName, "raw", "04_SnareTop.wav");
        var impulse = Path.Combine(_folder.FullName, "ir", "small_space.wav");
        Edited(take, 1, new BroadcastExtension { Originator = "DrumPrint demo" });
        Edited(impulse, 2, null);
        byte[][] before = [File.ReadAllBytes(take), File.ReadAllBytes(impulse)];

        var files = DemoSession.Write(_folder.FullName, full: false, null, CancellationToken.None);

        Assert.Equal(before, [File.ReadAllBytes(take), File.ReadAllBytes(impulse)]);
        Assert.Equal(
            "raw/04_SnareTop.wav and ir/small_space.wav are not as the demo writes them (edited, or of another version); kept. To have the demo's own again, move them away and run demo again, or give demo another folder.",
            Assert.Single(files.Notes));
        Assert.Equal(21, Directory.GetFiles(Path.Combine(_folder.FullName, "raw"), "*.wav").Length);
        Assert.Empty(Directory.GetFiles(_folder.FullName, "*.partial", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0 }));
        Assert.Equal(FileHash.Sha256(demo.Files.Tracks[0]), FileHash.Sha256(files.Tracks[0]));
    }

    [Fact]
    public void An_edited_take_of_the_cut_is_no_take_of_the_whole_song()
    {
        var take = Path.Combine(_folder.FullName, "raw", "04_SnareTop.wav");
        Edited(take, 1, null);
        File.WriteAllText(Path.Combine(_folder.FullName, SongForm.TempoFile), TempoText.Of(SongForm.Cut));

        var refused = Assert.Throws<UsageException>(() => DemoSession.Write(_folder.FullName, full: true, null, CancellationToken.None));

        Assert.Equal($"{take} is not as the demo writes it, and was recorded to the cut; it would not fit the whole song, which demo would put beside it. Give demo another folder. Nothing was written.", refused.Message);
        Assert.Equal(2, Directory.GetFiles(_folder.FullName, "*", SearchOption.AllDirectories).Length);
    }

    [Fact]
    public void What_demo_has_just_written_again_is_its_own_whatever_the_list_says()
    {
        var path = Path.Combine(_folder.FullName, "01_A.wav");
        Edited(path, 1, null);
        var earlier = new EarlierFiles(new HashSet<string> { path });

        using var writer = Finished(path, 1, null);
        earlier.Publish(writer);

        Assert.Empty(earlier.Notes);
    }

    [Fact]
    public void What_demo_wrote_itself_may_be_replaced_by_either_form()
    {
        var impulses = new Dictionary<string, double[][]> { [demo.Files.Impulses[0]] = Chamber.Make(), [demo.Files.Impulses[1]] = SmallSpace.Make() };

        var refused = Record.Exception(() => EarlierDemo.Check(Path.GetDirectoryName(demo.Files.Chain)!, demo.Files.Chain, impulses, full: true));

        Assert.Null(refused);
    }

    [Fact]
    public void Nothing_is_written_through_a_link_inside_the_folder()
    {
        var elsewhere = Directory.CreateDirectory(Path.Combine(_folder.FullName, "elsewhere")).FullName;
        var into = Directory.CreateDirectory(Path.Combine(_folder.FullName, "into")).FullName;
        if (!Files.Links.Make(Path.Combine(into, "raw"), elsewhere))
        {
            return;
        }

        var refused = Assert.Throws<UsageException>(() => DemoSession.Write(into, full: false, null, CancellationToken.None));

        Assert.Contains("writes through no link", refused.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(elsewhere));
    }

    [Fact]
    public void A_file_is_no_folder_for_the_session()
    {
        var path = Path.Combine(_folder.FullName, "notes.txt");
        File.WriteAllText(path, "mine");

        var refused = Assert.Throws<UsageException>(() => DemoSession.Write(path, full: false, null, CancellationToken.None));

        Assert.Equal($"{path} is a file, and demo writes a folder. Name a folder that is there, or a new one. Nothing was written.", refused.Message);
    }

    [Fact]
    public void Stopping_half_way_leaves_nothing_that_looks_finished_and_nothing_of_others_is_touched()
    {
        var other = Path.Combine(_folder.FullName, "raw", "mine.wav");
        Directory.CreateDirectory(Path.GetDirectoryName(other)!);
        File.WriteAllText(other, "mine");
        using var cancel = new CancellationTokenSource();
        var progress = new Stop(cancel);

        Assert.ThrowsAny<OperationCanceledException>(() => DemoSession.Write(_folder.FullName, full: false, progress, cancel.Token));

        Assert.Equal([other], Directory.GetFiles(_folder.FullName, "*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0 }));
        Assert.Equal("mine", File.ReadAllText(other));
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static void Edited(string path, int channels, BroadcastExtension? broadcast)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var writer = Finished(path, channels, broadcast);
        writer.Publish();
    }

    private static WaveWriter Finished(string path, int channels, BroadcastExtension? broadcast)
    {
        var sound = Enumerable.Range(0, channels).Select(_ => new double[480]).ToArray();
        var writer = WaveWriter.Create(path, new AudioFormat(SongForm.SampleRate, channels), SampleEncoding.Pcm24, broadcast, 480);
        writer.Write(new AudioBlock(sound, 0, 480));
        writer.Finish(480);
        return writer;
    }

    private sealed class Stop(CancellationTokenSource cancel) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value)
        {
            if (value.Fraction > 0)
            {
                cancel.Cancel();
            }
        }
    }
}
