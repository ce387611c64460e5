using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

/// <summary>What the check tells on the command line, and what a print tells of it.</summary>
public sealed class CheckCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public CheckCommandTests()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        Track("left.wav", 400);
        Track("right.wav", 500);
        File.WriteAllText(_folder.File("a.chain.json"), """
            { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 },
              "tracks": { "left": "raw/left.wav", "right": "raw/right.wav" },
              "buses": { "kick": { "from": { "left": -6 } }, "other": { "from": { "right": -6 } } },
              "prints": [ { "number": 1, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "Other", "bus": "other" } ] }
            """);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_print_of_good_files_says_nothing_and_one_with_a_copied_file_ends_with_1_and_a_line()
    {
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet", "--no-store").ExitCode);
        File.Copy(_folder.File("raw/left.wav"), _folder.File("raw/right.wav"), overwrite: true);

        var run = Run("print", "a.chain.json", "--quiet", "--no-store", "--out", "second");

        Assert.Equal(1, run.ExitCode);
        Assert.Contains("To look at: track 'right': right.wav holds the same samples as left.wav. Find the file that was meant. (rule D3 of the check)", run.Error, StringComparison.Ordinal);
        Assert.NotEmpty(Directory.GetFiles(_folder.File("second"), "*.ticket.json"));
    }

    [Fact]
    public void The_page_of_a_check_is_written_and_no_other_file_is_replaced_by_it()
    {
        File.WriteAllText(_folder.File("mine.html"), "mine");

        var run = Run("check", "a.chain.json", "--page", "check.html");
        var refused = Run("check", "a.chain.json", "--page", "mine.html");

        Assert.StartsWith("<!doctype html>", File.ReadAllText(_folder.File("check.html")), StringComparison.Ordinal);
        Assert.Contains("Page with pictures: check.html", run.Output, StringComparison.Ordinal);
        Assert.Equal(2, refused.ExitCode);
        Assert.Equal("mine", File.ReadAllText(_folder.File("mine.html")));
    }

    [Fact]
    public void The_schema_of_a_check_is_written_and_is_JSON()
    {
        using var schema = JsonDocument.Parse(Run("schema", "--check").Output);

        Assert.Equal("DrumPrint check", schema.RootElement.GetProperty("title").GetString());
        Assert.Equal(2, Run("schema", "--check", "--ticket").ExitCode);
    }

    [Fact]
    public void Every_key_of_a_check_is_described()
    {
        var described = File.ReadAllText(Repository.File("docs", "check-format.md"));
        using var schema = JsonDocument.Parse(Run("schema", "--check").Output);
        var keys = new[] { schema.RootElement.GetProperty("properties") }.Concat(schema.RootElement.GetProperty("$defs").EnumerateObject().Where(d => d.Value.TryGetProperty("properties", out _)).Select(d => d.Value.GetProperty("properties"))).SelectMany(p => p.EnumerateObject().Select(k => k.Name));

        Assert.All(keys, key => Assert.Matches($"[`.]{key}`", described));
    }

    [Fact]
    public void A_damaged_demo_takes_no_settings_of_a_print_and_no_folder_that_holds_something()
    {
        var withBits = Run("demo", "x", "--with-faults", "--bits", "16");
        var intoThis = Run("demo", ".", "--with-faults");

        Assert.Equal(2, withBits.ExitCode);
        Assert.Contains("--bits says how to print", withBits.Error, StringComparison.Ordinal);
        Assert.Equal(2, intoThis.ExitCode);
        Assert.Contains("so that no damaged take lies among good ones", intoThis.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder.File("x")));
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);

    private void Track(string name, double decay)
    {
        using var writer = WaveWriter.Create(_folder.File($"raw/{name}"), new AudioFormat(48000, 1), SampleEncoding.Pcm24, null, 9600);
        writer.Write(new AudioBlock([[.. Enumerable.Range(0, 9600).Select(n => n < 2400 ? 0 : 0.5 * Math.Exp(-(n - 2400) / decay))]], 0, 9600));
        writer.Finish(9600);
        writer.Publish();
    }
}
