using System.Globalization;

namespace DrumPrint.Printing.Folder;

/// <summary>Puts a change of length into words.</summary>
internal static class LengthWords
{
    /// <summary>Such as <c>session: length 5 → 6 s, one second longer</c>.</summary>
    /// <param name="before">Frames of the earlier file.</param>
    /// <param name="now">Frames of the new one.</param>
    /// <param name="rateHz">Frames of a second.</param>
    public static string Of(long before, long now, int rateHz) =>
        $"session: length {Seconds(before, rateHz)} → {Seconds(now, rateHz)} s, {Amount(Math.Abs(now - before), rateHz)} {(now > before ? "longer" : "shorter")}";

    private static string Amount(long frames, int rateHz) => frames == rateHz ? "one second" : $"{Seconds(frames, rateHz)} s";

    private static string Seconds(long frames, int rateHz) => ((double)frames / rateHz).ToString("0.###", CultureInfo.InvariantCulture);
}
