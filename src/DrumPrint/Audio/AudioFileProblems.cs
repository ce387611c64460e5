using System.Globalization;

namespace DrumPrint.Audio;

/// <summary>Faults that WAV and AIFF share, in words.</summary>
internal static class AudioFileProblems
{
    public static AudioFileException Unfinished(FileView file, long frames, int sampleRate) =>
        file.Problem(string.Create(
            CultureInfo.InvariantCulture,
            $"the recording was never finished: its header does not say how long it is. {frames} frames ({(double)frames / sampleRate:0.0} s) are there; have the recording program finish or repair the file."));

    public static AudioFileException Truncated(FileView file, long promised, long present) =>
        file.Problem($"the file is cut short: its header promises {promised} frames, but only {present} are there. Copy it again from its source.");

    public static AudioFileException Unsupported(FileView file, string found) =>
        file.Problem($"its samples are {found}; expected are 8, 16, 24 or 32-bit integers or 32 or 64-bit floating point, uncompressed.");

    public static AudioFileException UnusualRate(string path, int rateHz) =>
        new(path, FormattableString.Invariant($"its sample rate is {rateHz} Hz; files of {AudioReader.LowestRateHz} to {AudioReader.HighestRateHz} Hz are read."));

    public static AudioFileException NotAudio(FileView file, string found) =>
        file.Problem($"this is not a WAV, AIFF or FLAC file; {found}.");
}
