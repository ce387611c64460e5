using DrumPrint.Chains;
using DrumPrint.Planning;
using DrumPrint.Printing.Folder;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>What an excerpt tells of how it was made.</summary>
public sealed class ExcerptWordTests : IDisposable
{
    private const int Rate = TestSession.Rate;
    private const string Alone = "How far this excerpt had to be lowered was worked out from the excerpt alone; the whole session may be lowered further.";

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void What_it_tells_is_one_sentence_and_one_more_for_what_remembers_longer()
    {
        Assert.Equal(["Begun at the start of the song: exact."], ExcerptWords.Begun(null, 96000, Rate));
        Assert.Equal(["Begun 0.5 s before the stretch: exact."], ExcerptWords.Begun(new LateBegin(1920, 72000, true, []), 96000, Rate));
        Assert.Equal(
            ["Begun 1.5 s before the stretch: differs from the print by less than −100 dBFS (exact: --exact)."],
            ExcerptWords.Begun(new LateBegin(1920, 24000, false, []), 96000, Rate));
        Assert.Equal(
            [
                "Begun 20.0 s before the stretch: differs from the print by less than −100 dBFS (exact: --exact).",
                "These remember longer than 20 s, so it may differ by more: far room/compress and hall/convolve.",
            ],
            ExcerptWords.Begun(new LateBegin(1920, 1000, false, ["far room/compress", "hall/convolve"]), 961000, Rate));
    }

    [Fact]
    public void What_remembers_nothing_is_exact_at_any_place_and_dithered_like_the_print()
    {
        _session.Track("a.wav", Signals.Hits(96000, 1));
        var chain = _session.Chain("""
            "tracks": { "a": { "file": "a.wav", "delay_ms": 1.234 } },
            "buses": { "bus": { "from": { "a": { "level_db": -6, "delay_ms": 3 } }, "through": [ { "gain": { "level_db": -3 } } ] } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus" } ], "output": { "bits": 16 }
            """);
        _session.Print(chain);

        var report = _session.Print(chain, new PrintOptions { FromS = 1.2345, ToS = 1.9, Only = ["A"] });

        Assert.Contains(report.Notes, n => n.EndsWith("s before the stretch: exact.", StringComparison.Ordinal));
        Assert.Equal(_session.Read("01_A_Test_v1.wav")[0][59256..91200], Excerpt(report));
    }

    [Fact]
    public void A_release_of_seconds_is_told()
    {
        _session.Track("a.wav", Signals.Hits(30 * Rate, 1));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" },
            "buses": { "slow": { "from": { "a": -6 }, "through": [ { "compress": { "release_ms": 5000 } } ] } },
            "prints": [ { "number": 1, "name": "A", "bus": "slow" } ]
            """);

        var report = _session.Print(chain, new PrintOptions { FromS = 28, ToS = 28.1, Only = ["A"] });

        Assert.Contains("These remember longer than 20 s, so it may differ by more: slow/compress.", report.Notes);
    }

    [Fact]
    public void Without_a_print_the_trim_is_worked_out_from_the_excerpt_alone()
    {
        var chain = Loud(3);

        var report = _session.Print(chain, new PrintOptions { FromS = 0.5, ToS = 1 });

        Assert.Equal(0, report.TrimDb);
        Assert.Contains(Alone, report.Notes);
    }

    [Fact]
    public void The_trim_of_the_last_prints_is_taken_so_that_the_excerpt_is_their_slice()
    {
        var chain = Loud(3);
        var whole = _session.Print(chain);

        var report = _session.Print(chain, new PrintOptions { FromS = 0.5, ToS = 1, Only = ["A"] });
        var exact = _session.Print(chain, new PrintOptions { FromS = 0.5, ToS = 1, Only = ["A"], IsExact = true, OutFolder = Path.Combine(_session.Folder, "exact") });

        Assert.Equal(-3, whole.TrimDb);
        Assert.Equal(-3, report.TrimDb);
        Assert.Contains("This is the trim of the last prints; a chain that changed since may ask for another.", report.Notes);
        Assert.Equal(_session.Read("01_A_Test_v1.wav")[0][24000..48000], Excerpt(report));
        Assert.Equal(0, exact.TrimDb);
        Assert.Contains(Alone, exact.Notes);
    }

    [Fact]
    public void A_stretch_that_asks_for_more_than_the_last_prints_is_lowered_further()
    {
        _session.Print(Loud(3));

        var report = _session.Print(Loud(13), new PrintOptions { FromS = 0.5, ToS = 1 });

        Assert.Equal(-7, report.TrimDb);
        Assert.Contains("The last prints were lowered by 3.0 dB. This stretch asks for more; the whole session may ask for more still.", report.Notes);
    }

    [Fact]
    public void Prints_that_were_not_lowered_lower_no_excerpt()
    {
        var chain = Loud(0);
        _session.Print(chain);

        var report = _session.Print(chain, new PrintOptions { FromS = 0.5, ToS = 1 });

        Assert.Contains("The last prints were not lowered, so this excerpt is not; a chain that changed since may be.", report.Notes);
    }

    // Full scale at the start, half of it later.
    private Chain Loud(int db)
    {
        _session.Track("a.wav", [.. Signals.Sine(4800, 1000, 1), .. Signals.Sine(67200, 1000, 0.5)]);
        return _session.Chain($$"""
            "tracks": { "a": "a.wav" }, "buses": { "bus": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus", "level_db": {{db}} } ], "output": { "over": "lower_together" }
            """);
    }

    private static double[] Excerpt(PrintReport report) => TestSession.ReadFile(Path.Combine(report.OutFolder, report.Prints[0].FileName))[0];
}
