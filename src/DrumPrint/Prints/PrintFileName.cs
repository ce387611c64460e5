using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Planning;

namespace DrumPrint.Prints;

/// <summary>Names of the files a session prints.</summary>
public static class PrintFileName
{
    /// <summary>Number, name, song and version: <c>01_Kick_SlowFerry_v1.wav</c>.</summary>
    public static string Of(int number, string name, Song song)
    {
        ArgumentNullException.ThrowIfNull(song);
        return string.Create(CultureInfo.InvariantCulture, $"{number:00}_{name}_{song.Code}_v{song.Version}.wav");
    }

    /// <summary>The same, with the stretch for a part of the song: <c>01_Kick_SlowFerry_v1_0m49s615-1m08s077.wav</c>.</summary>
    internal static string Of(int number, string name, Song song, SongStretch? part)
    {
        var whole = Of(number, name, song);
        return part is null ? whole : $"{Path.GetFileNameWithoutExtension(whole)}_{Place(part.From, song)}-{(part.To is { } to ? Place(to, song) : "end")}.wav";
    }

    private static string Place(long frame, Song song)
    {
        var ms = (long)Math.Round(1000.0 * frame / song.RateHz);
        return string.Create(CultureInfo.InvariantCulture, $"{ms / 60000}m{ms / 1000 % 60:00}s{ms % 1000:000}");
    }
}
