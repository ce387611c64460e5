using System.Globalization;

namespace DrumPrint.Diff;

/// <summary>Says what a change did to the sound, by what was measured before and after.</summary>
internal static class SoundWords
{
    // A tenth of a decibel, less what two tickets that keep hundredths may be off together.
    private const double Least = 0.095;

    /// <summary>Such as <c>4.6 LU louder</c>; the peak too where it moved by more. Null when neither moved by 0.1.</summary>
    public static string? Of(MeasuredPair pair)
    {
        var (a, b) = (pair.A, pair.B);
        if (pair.IsSameAudio || (IsSilent(a.PeakDbfs) && IsSilent(b.PeakDbfs)))
        {
            return null;
        }

        if (IsSilent(a.PeakDbfs) || IsSilent(b.PeakDbfs))
        {
            return IsSilent(b.PeakDbfs) ? "silent now" : "silent before";
        }

        // Too short or too soft for a reading of loudness, and the peak speaks alone.
        var isLoudnessKnown = double.IsFinite(a.IntegratedLufs) && double.IsFinite(b.IntegratedLufs);
        var loudness = isLoudnessKnown ? b.IntegratedLufs - a.IntegratedLufs : 0;
        var peak = b.PeakDbfs - a.PeakDbfs;
        var words = new List<string>();
        if (Math.Abs(loudness) >= Least)
        {
            words.Add($"{Number(loudness)} LU {(loudness > 0 ? "louder" : "quieter")}");
        }

        if (Math.Abs(peak) >= Math.Abs(loudness) + Least)
        {
            words.AddRange(words.Count == 0 && isLoudnessKnown ? ["as loud as before"] : []);
            words.Add($"peak {Number(peak)} dB {(peak > 0 ? "higher" : "lower")}");
        }

        return words.Count == 0 ? null : string.Join(", ", words);
    }

    private static bool IsSilent(double peakDbfs) => double.IsNegativeInfinity(peakDbfs);

    private static string Number(double db) => Math.Abs(db).ToString("0.0", CultureInfo.InvariantCulture);
}
