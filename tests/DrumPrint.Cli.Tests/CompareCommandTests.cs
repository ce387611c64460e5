using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

public sealed class CompareCommandTests : IDisposable
{
    private const string Chain = """
        { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 },
          "tracks": { "in": "raw/in.wav" },
          "buses": { "kick": { "from": { "in": -6 } }, "impact": { "from": { "kick": -3 }, "through": [ { "compress": { "threshold_db": -30 } } ] } },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "Impact", "bus": "impact" } ] }
        """;

    private readonly TemporaryFolder _folder = new();

    public CompareCommandTests()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        Directory.CreateDirectory(_folder.File("song one"));
        Directory.CreateDirectory(_folder.File("song two"));
        Write("raw/in.wav", 0.4);
        Write("song one/01_Kick_One_v1.wav", 0.4);
        Write("song two/01_Kick_Two_v1.wav", 0.2);
        File.WriteAllText(_folder.File("a.chain.json"), Chain);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Two_files_end_with_0_a_verdict_and_the_offset_and_trim_in_sight()
    {
        var run = Run("compare", "song one/01_Kick_One_v1.wav", "song two/01_Kick_Two_v1.wav", "--trim", "0.3");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("B is A turned down by 6.02 dB, and nothing else", Flat(run.Output), StringComparison.Ordinal);
        Assert.Matches(@"gated loudness +−6\.32 dB +0\.00 dB +\+6\.32 dB", run.Output);
        Assert.Contains("+0.30 dB", run.Output, StringComparison.Ordinal);
        Assert.Equal(["Side", "against", "middle", "mono", "mono", "none"], run.Output.Split('\n').Single(l => l.Contains("Side against middle", StringComparison.Ordinal)).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public void A_part_of_a_chain_is_left_out_and_the_page_is_one_file()
    {
        var run = Run("compare", "a.chain.json", "--without", "impact/compress", "--json", "--page", "page.html");

        Assert.Equal(0, run.ExitCode);
        Assert.Empty(run.Error);
        using var json = JsonDocument.Parse(run.Output);
        Assert.Equal("without impact/compress", json.RootElement.GetProperty("b").GetProperty("name").GetString());
        Assert.Contains("</html>", File.ReadAllText(_folder.File("page.html")), StringComparison.Ordinal);
        Assert.Equal(["a.chain.json", "page.html"], Directory.GetFiles(_folder.Path).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("raw/in.wav")]
    [InlineData("a.chain.json")]
    [InlineData("  ")]
    public void A_page_never_takes_the_place_of_another_file(string page)
    {
        var before = File.ReadAllBytes(_folder.File("raw/in.wav"));

        var run = Run("compare", "song one/01_Kick_One_v1.wav", "song two/01_Kick_Two_v1.wav", "--page", page);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--page", run.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_folder.File("raw/in.wav")));
        Assert.Equal(Chain, File.ReadAllText(_folder.File("a.chain.json")));
    }

    [Fact]
    public void Folders_of_songs_make_an_album()
    {
        var run = Run("compare", "song one", "song two", "--album", "--quiet", "--page", "album.html");
        var json = Run("compare", "song one", "song two", "song one", "--json");

        Assert.Equal((0, ""), (run.ExitCode, run.Output));
        Assert.Contains("Kick", File.ReadAllText(_folder.File("album.html")), StringComparison.Ordinal);
        using var album = JsonDocument.Parse(json.Output);
        Assert.Equal(3, album.RootElement.GetProperty("songs").GetArrayLength());
    }

    [Theory]
    [InlineData(3, "no such file", "compare", "none.wav", "raw/in.wav")]
    [InlineData(2, "Did you mean 'impact'", "compare", "a.chain.json", "--without", "impct")]
    [InlineData(2, "01 Kick, which is the same with it and without it. It reaches 02 Impact, 90 RoughPreBus", "compare", "a.chain.json", "--without", "impact", "--print", "1")]
    [InlineData(2, "does not go with an album", "compare", "song one", "song two", "--album", "--from", "1")]
    [InlineData(2, "there is no folder nowhere", "compare", "raw/in.wav", "raw/in.wav", "--page", "nowhere/page.html")]
    [InlineData(2, "this is a folder", "compare", "raw/in.wav", "raw/in.wav", "--page", "raw")]
    [InlineData(2, "not a time", "compare", "raw/in.wav", "raw/in.wav", "--from", "soon")]
    [InlineData(3, "broken.wav", "compare", "broken.wav", "raw/in.wav")]
    public void What_cannot_be_compared_is_told_on_standard_error(int code, string words, params string[] arguments)
    {
        File.WriteAllText(_folder.File("broken.wav"), "not sound");

        var run = Run([.. arguments, "--quiet"]);

        Assert.Equal(code, run.ExitCode);
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void Help_says_that_two_raw_microphones_give_delay_and_polarity()
    {
        var help = Flat(Run("compare", "--help").Output);

        Assert.Contains("the delay_ms that A needs", help, StringComparison.Ordinal);
        Assert.Contains("\"polarity\": \"inverted\"", help, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--trim", "3dB", "--trim 3dB: not a level. Write decibels from -3 to 3 without a unit, such as 0.5. Did you mean --trim 3?")]
    [InlineData("--trim", "-1,5 dB", "Did you mean --trim -1.5?")]
    [InlineData("--trim", "loud", "--trim loud: not a level.")]
    [InlineData("--from", "10s", "--from 10s: not a time. Write seconds (12.5), minutes and seconds (1:23.4) or a bar (bar23), without a unit. Did you mean --from 10?")]
    [InlineData("--to", "1500ms", "Did you mean --to 1.5?")]
    [InlineData("--to", "2min", "Did you mean --to 120?")]
    [InlineData("--from", "1:23.4s", "Did you mean --from 1:23.4?")]
    [InlineData("--from", "0,5", "Did you mean --from 0.5?")]
    public void A_unit_glued_to_a_number_is_answered_with_the_number_to_write(string option, string value, string words)
    {
        var run = Run("compare", "raw/in.wav", "raw/in.wav", option, value, "--quiet");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void The_spectrum_stands_in_lines_of_five_bands_that_fit_80_columns()
    {
        var run = Run("compare", "song one/01_Kick_One_v1.wav", "song two/01_Kick_Two_v1.wav");
        var lines = run.Output.ReplaceLineEndings("\n").Split('\n');
        var bands = lines.SkipWhile(l => !l.StartsWith("Spectrum", StringComparison.Ordinal)).Skip(1).TakeWhile(l => l.Contains("Hz", StringComparison.Ordinal)).ToList();

        Assert.Equal(7, bands.Count);
        Assert.All(bands, l => Assert.InRange(l.TrimEnd().Length, 14, 80));
        Assert.Equal(31, bands.Sum(l => l.Split("Hz").Length - 1));
    }

    // The table of a log breaks lines.
    private static string Flat(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private void Write(string name, double level)
    {
        var samples = new double[1][];
        samples[0] = [.. Enumerable.Range(0, 96000).Select(n => level * Math.Exp(-(n % 12000) / 3000.0) * (((n * 7919) % 1000 / 500.0) - 1))];
        using var writer = WaveWriter.Create(_folder.File(name), new AudioFormat(48000, 1), SampleEncoding.Float32, null, 96000);
        writer.Write(new AudioBlock(samples, 0, 96000));
        writer.Finish(96000);
        writer.Publish();
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
