using DrumPrint.Audio;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>Holds the sum of the demo's playing prints, read from disk, against their rough.</summary>
internal static class Rebuild
{
    /// <param name="report">What was printed.</param>
    /// <param name="encoding">As what.</param>
    /// <param name="expectedDbfs">What may be left. Fourteen files rounded to 24 bit differ from their rounded sum by 7.5 steps at worst, −121 dBFS (computed).</param>
    public static void Holds(PrintReport report, SampleEncoding encoding, double expectedDbfs)
    {
        var playing = report.Prints.Where(p => p.Kind == PrintKind.Playing).ToList();
        Assert.Equal(14, playing.Count);
        Assert.All(playing, p => Assert.Equal(encoding, EncodingOf(Path.Combine(report.OutFolder, p.FileName))));

        var left = TestSession.ReadFile(Path.Combine(report.OutFolder, report.Prints.Single(p => p.Kind == PrintKind.Rough).FileName));
        foreach (var print in playing)
        {
            var samples = TestSession.ReadFile(Path.Combine(report.OutFolder, print.FileName));
            for (var side = 0; side < 2; side++)
            {
                for (var n = 0; n < left[side].Length; n++)
                {
                    left[side][n] -= samples[Math.Min(side, samples.Length - 1)][n];
                }
            }
        }

        var peak = 20 * Math.Log10(left.Max(s => s.Max(Math.Abs)));
        Assert.InRange(peak, double.NegativeInfinity, expectedDbfs);
        Assert.Equal(report.NullPeakDbfs!.Value, peak, 0.01);
    }

    private static SampleEncoding EncodingOf(string path)
    {
        using var reader = AudioReader.Open(path);
        return reader.Info.Encoding;
    }
}
