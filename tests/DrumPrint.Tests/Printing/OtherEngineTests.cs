using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Printing;

/// <summary>The version of the program that made a print says nothing of its sound.</summary>
public sealed class OtherEngineTests : IDisposable
{
    private readonly TestSession _session = new();

    public OtherEngineTests() => _session.Track("a.wav", Signals.Hits(4800, 1));

    private string PrintPath => Path.Combine(_session.Prints, "01_A_Test_v1.wav");

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_print_of_another_version_with_the_same_samples_is_replaced_without_a_word_but_the_version()
    {
        PrintAs("9.9.9");

        var report = Print();

        Assert.Empty(report.Losses);
        Assert.Equal([$"engine: version 9.9.9 → {EngineVersion.Text}"], Assert.Single(report.Prints).Because);
        Assert.Equal(EngineVersion.Text, PrintPart.Read(PrintPath)!.Engine);
        Assert.False(Directory.Exists(Path.Combine(_session.Prints, "changed")));
    }

    [Fact]
    public void An_edited_print_of_another_version_is_kept()
    {
        PrintAs("9.9.9");
        Kept.Flip(PrintPath, 0.9);
        var edited = File.ReadAllBytes(PrintPath);

        var report = Print();

        Assert.StartsWith("Changed or damaged after printing: 01_A.", Assert.Single(report.Losses), StringComparison.Ordinal);
        Assert.Equal(edited, File.ReadAllBytes(Path.Combine(_session.Prints, "changed", "01_A_Test_v1.wav")));
    }

    [Fact]
    public void Prints_are_made_alike_whoever_made_them_and_however_long_they_are_and_not_from_anything_else()
    {
        Print();
        var part = PrintPart.Read(PrintPath)!;

        Assert.True(part.IsMadeLike(part with { Engine = "9.9.9", Frames = 7, Form = PartKeys.WithoutSeal, AudioSha256 = null }));
        Assert.False(part.IsMadeLike(part with { TrimDb = -1 }));
        Assert.False(part.IsMadeLike(part with { Encoding = SampleEncoding.Pcm16 }));
        Assert.False(part.IsMadeLike(part with { Number = 2 }));
        Assert.False(part.IsMadeLike(part with { Chain = part.Chain with { Song = part.Chain.Song with { Title = "Other" } } }));
        Assert.False(part.IsMadeLike(part with { Tracks = [part.Tracks[0] with { AudioSha256 = FileSeal.Blank }] }));
    }

    private void PrintAs(string engine) => _session.Print(Chain, new PrintOptions
    {
        Settled = new SettledRun(TestSession.Rate, 0, new Dictionary<string, string>())
        {
            Carried = new Dictionary<int, CarriedRecord> { [1] = new(PartKeys.Format, engine, null) },
        },
    });

    private PrintReport Print() => _session.Print(Chain, new PrintOptions { Store = StoreOptions.Beside(Path.Combine(_session.Folder, "test.chain.json")) });

    private Chain Chain => _session.Chain("""
        "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": -3 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0, "rough": false }
        """);
}
