using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;

namespace DrumPrint.Prints;

/// <summary>What a print says of itself in its <c>bext</c> chunk.</summary>
internal static class PrintBroadcast
{
    /// <param name="song">The session.</param>
    /// <param name="target">The print.</param>
    /// <param name="format">Rate and channels.</param>
    /// <param name="encoding">Word length.</param>
    /// <param name="startFrame">Song time of the first frame.</param>
    /// <param name="loudness">Readings; null before they are known.</param>
    public static BroadcastExtension Of(Song song, PrintTarget target, AudioFormat format, SampleEncoding encoding, long startFrame, LoudnessMeter? loudness) => new()
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{Ascii(song.Title)}, v{song.Version}: {target.Number:00} {target.Name}"),
        Originator = "DrumPrint",
        TimeReference = startFrame,
        LoudnessLufs = Reading(loudness?.IntegratedLufs),
        CodingHistory = string.Create(CultureInfo.InvariantCulture, $"A=PCM,F={format.SampleRate},W={Bits(encoding)},M={(format.Channels == 1 ? "mono" : "stereo")},T=DrumPrint {EngineVersion.Text}\r\n"),
    };

    private static int Bits(SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm16 => 16,
        SampleEncoding.Pcm24 => 24,
        SampleEncoding.Float64 => 64,
        _ => 32,
    };

    private static double? Reading(double? value) => value is { } x && double.IsFinite(x) ? x : null;

    private static string Ascii(string text) => string.Concat(text.Select(c => c is >= ' ' and <= '~' ? c : '?'));
}
