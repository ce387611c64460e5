using System.Globalization;
using DrumPrint.Chains;

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
}
