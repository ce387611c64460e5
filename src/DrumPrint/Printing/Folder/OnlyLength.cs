using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Printing.Runs;

namespace DrumPrint.Printing.Folder;

/// <summary>Tells whether prints that got another length hold the same sound as the files that were there.</summary>
/// <param name="setup">The run, before its prints take their names.</param>
internal sealed class OnlyLength(RunSetup setup)
{
    private readonly Dictionary<int, bool> _same = [];

    /// <summary>Whether a new print holds the samples of an earlier file, up to where the shorter of the two ends.</summary>
    /// <param name="print">A print that was rendered.</param>
    /// <param name="earlier">The file that was there.</param>
    public bool IsSame(PrintFigures print, string earlier)
    {
        if (!_same.TryGetValue(print.Target.Number, out var same))
        {
            same = print.Writer is { } writer && IsSame(earlier, writer.PartialPath);
            _same.Add(print.Target.Number, same);
        }

        return same;
    }

    /// <summary>A change of length in words, such as <c>session: length 5 → 6 s, one second longer</c>.</summary>
    /// <param name="before">Frames of the earlier file.</param>
    /// <param name="now">Frames of the new one.</param>
    public string Words(long before, long now) =>
        $"session: length {Seconds(before)} → {Seconds(now)} s, {Amount(Math.Abs(now - before))} {(now > before ? "longer" : "shorter")}";

    private string Amount(long frames) => frames == setup.Chain.Song.RateHz ? "one second" : $"{Seconds(frames)} s";

    private string Seconds(long frames) => ((double)frames / setup.Chain.Song.RateHz).ToString("0.###", CultureInfo.InvariantCulture);

    private static bool IsSame(string earlier, string now)
    {
        try
        {
            return PrintComparison.IsSameWhileBothLast(earlier, now);
        }
        catch (AudioFileException)
        {
            return false; // what cannot be read is not the same
        }
    }
}
