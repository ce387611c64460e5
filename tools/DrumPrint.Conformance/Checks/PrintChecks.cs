using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;

namespace DrumPrint.Conformance.Checks;

/// <summary>What a print is said to be: its peaks, as the table, the ticket and the file itself tell them.</summary>
internal static class PrintChecks
{
    public const string Note = "One track to one print, level 0 dB, 24 bit. The sine lies at a quarter of the rate with its samples 45° from its peaks, so that its true peak lies 3.0103 dB above the samples.";

    private const string Annex = "ITU-R BS.1770-5, annex 2";
    private const double BetweenDb = 3.0103;
    private const int Rate = 48000;

    public static IEnumerable<Check> All() =>
    [
        .. new[] { -12.0, -3.2, -1.5 }.Select(peak => new Check("print", FormattableString.Invariant($"true peak told of a print whose samples reach {peak} dBFS").Replace('-', '−'), Annex, Bar.Near(Math.Round(peak + BetweenDb, 2), 0.02, "dBTP", 2), () => Print(peak).TruePeakDbtp)),
        new("print", "the same, sample peak told", "the level of the sine", Bar.Near(-1.5, 0.001, "dBFS", 3), () => Print(-1.5).PeakDbfs),
        new("print", "true peak told less that of the written file, read back, six prints of noise: worst distance", Annex, Bar.AtMost(0.001, "dB", 4), () => Enumerable.Range(1, 6).Max(seed => NoiseError((ulong)seed))),
        new("print", "findings above −0.1 dBTP: prints at −0.15 and −0.05 dBTP that are named", Annex, Bar.Exactly(1, "print"), () => new[] { -0.15, -0.05 }.Count(p => IsNamed(p - BetweenDb))),
        new("print", "lowered together by true peak: highest true peak of a print that had +1.5", Annex, Bar.Between(-0.1, 0.02, 0.02, "dBTP", 2), () => Print(-1.5, """, "output": { "over": "lower_together", "over_at": "true_peak" }""").TruePeakDbtp),
    ];

    private static PrintedFile Print(double peakDb, string output = "") => Report(Sine(peakDb), output, (r, _) => r.Prints[0]);

    private static bool IsNamed(double peakDb) => Report(Sine(peakDb), "", (r, _) => r.Findings.Any(f => f.StartsWith("True peak above", StringComparison.Ordinal)));

    private static double[] Sine(double peakDb)
    {
        var amplitude = Math.Pow(10, (peakDb + BetweenDb) / 20);
        var fade = 2400;
        return [.. Enumerable.Range(0, Rate).Select(n => amplitude * Math.Min(1, Math.Min(n, Rate - n) / (double)fade) * Math.Sin((Math.PI / 2 * n) + (Math.PI / 4)))];
    }

    private static double NoiseError(ulong seed) => Report([.. Signals.Noise(Rate / 2, seed).Select(x => 0.4 * x)], "", (r, folder) => Math.Abs(r.Prints[0].TruePeakDbtp - Measuring.FileMeter.Measure(Path.Combine(folder, "prints", r.Prints[0].FileName)).Sound.TruePeakDbtp!.Value));

    private static T Report<T>(double[] track, string output, Func<PrintReport, string, T> read)
    {
        using var folder = new TemporaryFolder();
        using (var writer = WaveWriter.Create(Path.Combine(folder.Path, "a.wav"), new AudioFormat(Rate, 1), SampleEncoding.Float64, null, track.Length))
        {
            writer.Write(new AudioBlock([track], 0, track.Length));
            writer.Finish(track.Length);
            writer.Publish();
        }

        var chain = ChainReader.Parse(
            $$"""
            { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 }, "tracks": { "a": "a.wav" },
              "buses": { "b": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ]{{output}} }
            """,
            Path.Combine(folder.Path, "test.chain.json"));
        return read(SessionPrinter.Print(chain, new PrintOptions()), folder.Path);
    }
}
