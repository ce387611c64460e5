using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Checking;
using DrumPrint.Checking.Findings;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Chains;

/// <summary>The song's own mix: part of the chain, and of no print.</summary>
public sealed class ReferenceTests : IDisposable
{
    private const string Body = """
        "tracks": { "a": "raw/a.wav" }, "buses": { "all": { "from": { "a": -3 }, "through": [ { "compress": { "threshold_db": -20, "ratio": 3 } } ] } },
        "prints": [ { "number": 1, "name": "All", "bus": "all" } ], "output": { "bits": "32f" }
        """;

    private readonly TestSession _session = new();

    public ReferenceTests() => _session.Track("raw/a.wav", Wave(48000));

    public void Dispose() => _session.Dispose();

    [Fact]
    public void It_is_read_as_a_path_or_with_all_its_keys_and_written_again()
    {
        var plain = _session.Chain(Body + ", \"reference\": \"mix/song.wav\"").Reference!;
        var chain = _session.Chain(Body + ", \"reference\": { \"file\": \"mix/song.wav\", \"delay_ms\": 2, \"latency_ms\": 2000, \"convert\": true }");
        var again = ChainReader.Parse(ChainWriter.Canonical(chain), chain.Path);

        Assert.Equal(("mix/song.wav", PathDelay.None, 0.0, false), (plain.File, plain.Delay, plain.LatencyMs, plain.Convert));
        Assert.Equal(("mix/song.wav", new PathDelay(2, Unit.Milliseconds), 2000.0, true), (chain.Reference!.File, chain.Reference.Delay, chain.Reference.LatencyMs, chain.Reference.Convert));
        Assert.Equal(chain.Reference with { Line = 0 }, again.Reference! with { Line = 0 });
        Assert.DoesNotContain("reference", ChainWriter.Canonical(_session.Chain(Body)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"latency_ms\": 2 }", "'file' is missing")]
    [InlineData("{ \"file\": \"m.wav\", \"level_db\": 2 }", "level_db")]
    [InlineData("{ \"file\": \"m.wav\", \"delay_ms\": 2, \"delay_frames\": 2 }", "a delay is given once")]
    [InlineData("{ \"file\": \"m.wav\", \"delay_frames\": 2.5 }", "delay_frames")]
    [InlineData("true", "this is true")]
    public void A_mistake_in_it_is_told_at_its_place(string reference, string problem)
    {
        var e = Assert.Throws<ChainException>(() => _session.Chain($"{Body}, \"reference\": {reference}"));

        var told = Assert.Single(e.Problems).ToString();
        Assert.Contains("reference", told, StringComparison.Ordinal);
        if (reference != "true")
        {
            Assert.Contains(problem, told, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Every_print_is_the_same_to_the_byte_with_it_without_it_and_when_its_file_is_missing()
    {
        _session.Print(_session.Chain(Body));
        var names = _session.Files().Where(f => f.EndsWith(".wav", StringComparison.Ordinal)).ToList();
        var before = names.Select(n => File.ReadAllBytes(Path.Combine(_session.Prints, n))).ToList();
        Directory.Delete(_session.Prints, true);

        // There is no such file, and no print looks for it.
        var report = _session.Print(_session.Chain(Body + ", \"reference\": \"mix/song.wav\""));

        Assert.Empty(report.StandingFindings);
        Assert.Equal(names, _session.Files().Where(f => f.EndsWith(".wav", StringComparison.Ordinal)));
        Assert.All(names.Zip(before), p => Assert.Equal(p.Second, File.ReadAllBytes(Path.Combine(_session.Prints, p.First))));
        Assert.Equal("mix/song.wav", TicketFiles.ReadableIn(_session.Prints).Single().Chain.Reference!.File);
    }

    [Fact]
    public void The_check_tells_a_mix_that_is_not_there_does_not_fit_or_lies_elsewhere_and_listens_to_no_other()
    {
        Assert.Equal((Severity.Warning, "The song's own mix song.wav is not there, so the bench plays without it; no print needs it."), Told("D4", "\"mix/song.wav\""));

        _session.Track("mix/song.wav", 44100, Wave(44100));
        Assert.Equal((Severity.Warning, "The song's own mix is at 44100 Hz, and the session runs at 48000 Hz; the bench plays without it."), Told("A1", "\"mix/song.wav\""));
        Assert.Null(Told("A1", "{ \"file\": \"mix/song.wav\", \"convert\": true }"));

        _session.Track("mix/song.wav", Wave(10), Wave(10), Wave(10));
        Assert.Equal((Severity.Warning, "The song's own mix has 3 channels; the song's own mix is mono or stereo."), Told("A8", "\"mix/song.wav\""));

        Assert.StartsWith("The file is not read: that lies outside the session", Told("A8", "\"../../song.wav\"")!.Value.Sentence, StringComparison.Ordinal);

        // Over full scale, short and unlike all others: nothing of that is for the check to tell.
        _session.Track("mix/song.wav", [.. Wave(4800).Select(s => 3 * s)]);
        Assert.DoesNotContain(Check("\"mix/song.wav\"").Findings, f => f.Track == "reference");
    }

    private (Severity Severity, string Sentence)? Told(string rule, string reference)
    {
        var found = Check(reference).Findings.Where(f => f.Track == "reference").ToList();
        Assert.All(found, f => Assert.Equal(rule, f.Rule.Id));
        return found is [var only] ? (only.Severity, only.Sentence) : null;
    }

    private CheckReport Check(string reference)
    {
        var chain = _session.ChainFile($"{Body}, \"reference\": {reference}");
        return Checker.Check(chain.Path, new CheckOptions());
    }

    private static double[] Wave(int frames) => [.. Enumerable.Range(0, frames).Select(n => 0.4 * Math.Sin(2 * Math.PI * 200 * n / TestSession.Rate))];
}
