using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Language;

namespace DrumPrint.Printing.Folder;

/// <summary>Names the prints whose peaks may clip where they are played or copied.</summary>
internal static class LoudPeaks
{
    // Own bar: what the estimate of a true peak at four times the rate may miss at the most common rates.
    private const double HighestDbtp = -0.1;

    public static IEnumerable<string> Of(SampleEncoding encoding, IReadOnlyList<PrintPeaks> prints)
    {
        var above = prints.Where(p => encoding.IsFloat() && p.PeakDbfs > 0).ToList();
        if (above.Count > 0)
        {
            yield return $"Above 0 dBFS: {Show.List([.. above.Select(p => Name(p, p.PeakDbfs, "dBFS"))])}. 32-bit float holds it; a converter, a fader's output or a 24-bit copy clips it.";
        }

        var between = prints.Where(p => p.TruePeakDbtp > HighestDbtp && !above.Contains(p)).ToList();
        if (between.Count > 0)
        {
            yield return $"True peak above {Db(HighestDbtp)} dBTP: {Show.List([.. between.Select(p => Name(p, p.TruePeakDbtp, "dBTP"))])}. Between the samples a converter or a compressed copy may clip. Lower it, or write \"over\": \"lower_together\", \"over_at\": \"true_peak\" under output.";
        }
    }

    private static string Name(PrintPeaks print, double db, string unit) => string.Create(CultureInfo.InvariantCulture, $"{print.Number:00} {Show.Name(print.Name)} ({Db(db)} {unit})");

    private static string Db(double db) => db.ToString("+0.0#;−0.0#;0.0", CultureInfo.InvariantCulture);
}
