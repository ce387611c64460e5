using System.Globalization;
using DrumPrint.Chains;

namespace DrumPrint.Session;

/// <summary>Names of the files a session prints.</summary>
public static class PrintFileName
{
    /// <summary>Where prints go without a word, beside the chain.</summary>
    internal const string Folder = "prints";

    /// <summary>Number, name, song and version: <c>01_Kick_SlowFerry_v1.wav</c>.</summary>
    public static string Of(int number, string name, Song song)
    {
        ArgumentNullException.ThrowIfNull(song);
        return string.Create(CultureInfo.InvariantCulture, $"{number:00}_{name}_{song.Code}_v{song.Version}.wav");
    }

    /// <summary>The same, with the stretch for a part of the song, said as it was asked for:
    /// <c>01_Kick_SlowFerry_v1_bar22-bar26.wav</c> or <c>01_Kick_SlowFerry_v1_0m49s615-1m08s077.wav</c>.</summary>
    internal static string Of(int number, string name, Song song, (long From, long? To) part, (double? From, double? To) bars)
    {
        var from = bars.From is { } first ? Bar(first) : Time(part.From, song);
        var to = bars.To is { } next ? Bar(next) : part.To is { } end ? Time(end, song) : "end";
        return $"{Path.GetFileNameWithoutExtension(Of(number, name, song))}_{from}-{to}.wav";
    }

    private static string Bar(double bar) => string.Create(CultureInfo.InvariantCulture, $"bar{bar:0.######}");

    private static string Time(long frame, Song song)
    {
        var ms = (long)Math.Round(1000.0 * frame / song.RateHz);
        return string.Create(CultureInfo.InvariantCulture, $"{ms / 60000}m{ms / 1000 % 60:00}s{ms % 1000:000}");
    }
}
