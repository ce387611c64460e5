using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

public sealed class ChainCommandTests : IDisposable
{
    private const string Chain = """
        { "chain": 1, // with a comment
          "song": { "title": "Test", "code": "Test", "rate_hz": 48000, "tempo": "raw/tempo.json" },
          "tracks": { "in": "raw/in.wav", "top": { "file": "raw/top.wav", "delay_ms": 0.4 } },
          "buses": {
            "kick": { "from": { "in": { "level_db": -6, "ride": [ { "from_bar": 1, "to_bar": 1, "db": 1 } ] } } },
            "snare": { "from": { "top": -6 }, "through": [ { "compress": { "ratio": 8 } } ] } },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "Snare", "bus": "snare" } ] }
        """;

    private readonly TemporaryFolder _folder = new();

    public ChainCommandTests()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        Raw("in", 1);
        Raw("top", 2);
        File.WriteAllText(_folder.File("raw/tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 2 }""");
        File.WriteAllText(_folder.File("a.chain.json"), Chain);
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet").ExitCode);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_chain_out_of_a_ticket_prints_the_same_bytes()
    {
        File.Delete(_folder.File("a.chain.json"));
        File.Delete(_folder.File("raw/tempo.json"));

        var run = Run("chain", "prints");

        Assert.Equal(0, run.ExitCode);
        Assert.StartsWith("Written: Test_v1.chain.json and its tempo map", run.Output, StringComparison.Ordinal);
        Assert.Equal(0, Run("print", "Test_v1.chain.json", "--out", "again", "--no-store", "--quiet").ExitCode);
        Assert.All(Directory.GetFiles(_folder.File("prints")), f => Assert.Equal(File.ReadAllBytes(f), File.ReadAllBytes(_folder.File(Path.Combine("again", Path.GetFileName(f))))));
    }

    [Fact]
    public void The_chain_out_of_a_print_holds_what_the_print_needs()
    {
        var run = Run("chain", "prints/02_Snare_Test_v1.wav", "--out", "snare.chain.json");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("It holds what 02_Snare_Test_v1 is made of and nothing else", run.Output, StringComparison.Ordinal);
        var text = File.ReadAllText(_folder.File("snare.chain.json"));
        Assert.Contains("raw/top.wav", text, StringComparison.Ordinal);
        Assert.DoesNotContain("raw/in.wav", text, StringComparison.Ordinal);
        Assert.Equal(0, Run("print", "snare.chain.json", "--out", "again", "--quiet").ExitCode);
    }

    [Fact]
    public void A_file_that_is_there_is_not_replaced()
    {
        var run = Run("chain", "prints", "--out", "a.chain.json");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("a.chain.json is there already", run.Error, StringComparison.Ordinal);
        Assert.Equal(Chain, File.ReadAllText(_folder.File("a.chain.json")));
    }

    [Fact]
    public void A_tempo_map_of_today_stays_and_is_told()
    {
        var today = File.ReadAllText(_folder.File("raw/tempo.json")).Replace("120", "121", StringComparison.Ordinal);
        File.WriteAllText(_folder.File("raw/tempo.json"), today);

        var run = Run("chain", "prints");

        Assert.Contains("holds other bars or tempi than were printed with", run.Output, StringComparison.Ordinal);
        Assert.Equal(today, File.ReadAllText(_folder.File("raw/tempo.json")));
    }

    [Fact]
    public void Sound_files_that_are_not_there_are_named()
    {
        Directory.CreateDirectory(_folder.File("else"));

        var run = Run("chain", "prints", "--out", "else/b.chain.json");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("2 of the 2 sound files it names are not there", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_tickets_one_must_be_named()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"code\": \"Test\"", "\"code\": \"Test\", \"version\": 2", StringComparison.Ordinal));
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet").ExitCode);

        var run = Run("chain", "prints");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("prints holds several: Test_v1.ticket.json and Test_v2.ticket.json. Name one ticket or print.", run.Error, StringComparison.Ordinal);
    }

    private void Raw(string name, int seed)
    {
        double[] samples = [.. Enumerable.Range(0, 48000).Select(n => 0.3 * Math.Sin(n * 0.01 * seed))];
        using var writer = WaveWriter.Create(_folder.File($"raw/{name}.wav"), new AudioFormat(48000, 1), SampleEncoding.Pcm24, null, samples.Length);
        writer.Write(new AudioBlock([samples], 0, samples.Length));
        writer.Finish(samples.Length);
        writer.Publish();
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
