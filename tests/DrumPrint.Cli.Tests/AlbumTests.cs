using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

/// <summary>Many songs on one command line.</summary>
public sealed class AlbumTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public AlbumTests()
    {
        Song("One", -6);
        Song("Two", -9);
        Song("Three", -6, raw: "gone.wav");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_song_that_fails_does_not_stop_the_others_and_the_code_is_the_worst()
    {
        var run = Run("print", "One", "Three", "Two");

        Assert.Equal(ExitCode.File, run.ExitCode);
        Assert.True(File.Exists(_folder.File("One/prints/01_Kick_One_v1.wav")));
        Assert.True(File.Exists(_folder.File("Two/prints/01_Kick_Two_v1.wav")));
        Assert.Contains("Three: not done; see above.", run.Error, StringComparison.Ordinal);
        Assert.Contains("2 of 3 songs done. Mend the others and give the same command again", run.Output, StringComparison.Ordinal);
        Assert.Matches(@"Three +file trouble +– ", run.Output);
        Assert.Matches(@"One +done +2\.000 ", run.Output);
    }

    [Fact]
    public void The_summary_holds_length_level_and_recipe_beside_each_other()
    {
        var run = Run("print", "One", "Two", "--json");

        using var json = JsonDocument.Parse(run.Output);
        var songs = json.RootElement.GetProperty("songs").EnumerateArray().ToList();
        Assert.Equal([0, 0], songs.Select(s => s.GetProperty("exit_code").GetInt32()));
        Assert.Equal([96000, 96000], songs.Select(s => s.GetProperty("frames").GetInt32()));
        Assert.Equal(3, songs[0].GetProperty("rough_lufs").GetDouble() - songs[1].GetProperty("rough_lufs").GetDouble(), 0.011);
        Assert.Equal([0, 1], songs.Select(s => s.GetProperty("differences_from_first").GetInt32()));
    }

    [Fact]
    public void The_same_command_again_makes_nothing_twice_and_tells_the_same()
    {
        var first = Run("print", "One", "Two", "--json");
        var prints = Directory.GetFiles(_folder.Path, "*.wav", SearchOption.AllDirectories).ToDictionary(f => f, File.GetLastWriteTimeUtc);

        var again = Run("print", "One", "Two", "--json");

        Assert.Equal(first.Output, again.Output);
        Assert.All(prints, p => Assert.Equal(p.Value, File.GetLastWriteTimeUtc(p.Key)));
    }

    [Fact]
    public void Songs_printed_one_by_one_are_gathered_by_the_same_summary()
    {
        var album = Run("print", "One", "Two", "--json");
        foreach (var song in new[] { "One", "Two" })
        {
            Directory.Delete(_folder.File(song + "/prints"), recursive: true);
            Run("print", song, "--quiet", "--threads", "1");
        }

        Assert.Equal(album.Output, Run("print", "One", "Two", "--json").Output);
    }

    [Fact]
    public void Every_song_is_checked_and_delivered()
    {
        Assert.Equal(ExitCode.File, Run("print", "One", "Two", "Three", "--quiet").ExitCode);

        var check = Run("check", "One", "Two");
        var deliver = Run("deliver", "One", "Three", "Two", "--to", "sent");

        Assert.Matches(@"Two +done", check.Output);
        Assert.Equal(ExitCode.Usage, deliver.ExitCode);
        Assert.Equal(["One_v1", "Two_v1"], Directory.GetDirectories(_folder.File("sent")).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal(0, Run("deliver", "--check", "sent/Two_v1").ExitCode);
    }

    [Fact]
    public void A_list_of_jobs_has_a_line_for_each_song_with_every_option_and_does_nothing()
    {
        Directory.Move(_folder.File("Two"), _folder.File("Two it's"));

        var run = Run("print", "One", "--threads", "1", "Two it's", "--list-jobs", "--quiet");

        Assert.Equal("drumprint print One --threads 1 --quiet\ndrumprint print 'Two it'\\''s' --threads 1 --quiet\n", run.Output.ReplaceLineEndings("\n"));
        Assert.Equal(0, run.ExitCode);
        Assert.False(Directory.Exists(_folder.File("One/prints")));
    }

    [Fact]
    public void A_line_of_the_list_is_read_by_a_shell_as_it_was_meant()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        Directory.Move(_folder.File("Two"), _folder.File("Two $HOME `it's`"));
        var line = Run("print", "Two $HOME `it's`", "--list-jobs", "--quiet").Output.Trim();

        Assert.Equal(0, ProgramRun.OfShell(_folder.Path, line).ExitCode);
        Assert.True(File.Exists(_folder.File("Two $HOME `it's`/prints/01_Kick_Two_v1.wav")));
    }

    [Theory]
    [InlineData("--out is for one song, and 2 songs are named. Give it with one of them.", "print", "One", "Two", "--out", "there")]
    [InlineData("--since is for one song, and 2 songs are named.", "deliver", "One", "Two", "--to", "sent", "--since", "sent/One_v1")]
    [InlineData("--page is for one song, and 2 songs are named.", "check", "One", "Two", "--page", "a.html")]
    [InlineData("One is named twice. Name each song once.", "print", "One", "Two", "One")]
    public void What_would_put_two_songs_into_one_place_is_refused(string message, params string[] command)
    {
        var run = Run(command);

        Assert.Equal(ExitCode.Usage, run.ExitCode);
        Assert.Contains(message, run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder.File("One/prints")));
    }

    [Fact]
    public void A_name_with_spaces_that_was_not_put_in_quotes_is_told()
    {
        Directory.Move(_folder.File("One"), _folder.File("My One"));

        var run = Run("print", "My", "One");

        Assert.Equal(ExitCode.Usage, run.ExitCode);
        Assert.Contains("My One is one name: put a name with spaces in quotes.", run.Error, StringComparison.Ordinal);
    }

    private ProgramRun Run(params string[] command) => ProgramRun.Of(_folder.Path, command);

    private void Song(string code, double level, string raw = "kick.wav")
    {
        Directory.CreateDirectory(_folder.File(code));
        using var writer = WaveWriter.Create(_folder.File(code + "/kick.wav"), new AudioFormat(48000, 1), SampleEncoding.Float64, null, 60_000);
        writer.Write(new AudioBlock([[.. Enumerable.Range(0, 60_000).Select(n => 0.5 * Math.Sin(n * 0.05) * Math.Exp(-(n % 12_000) / 4000.0))]], 0, 60_000));
        writer.Finish(60_000);
        writer.Publish();
        File.WriteAllText(_folder.File($"{code}/{code}.chain.json"), FormattableString.Invariant($$"""
            { "chain": 1, "song": { "title": "{{code}}", "code": "{{code}}", "rate_hz": 48000 }, "tracks": { "kick": "{{raw}}" },
              "buses": { "k": { "from": { "kick": {{level}} } } }, "prints": [ { "number": 1, "name": "Kick", "bus": "k" } ] }
            """));
    }
}
