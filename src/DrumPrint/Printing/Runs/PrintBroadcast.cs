using System.Globalization;
using System.Text;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;
using DrumPrint.Files;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Printing.Runs;

/// <summary>What a print says of itself in its <c>bext</c> chunk.</summary>
internal static class PrintBroadcast
{
    /// <param name="setup">The run.</param>
    /// <param name="target">The print.</param>
    /// <param name="format">Rate and channels.</param>
    /// <param name="written">Where it was measured; null before that.</param>
    /// <param name="audioSha256">Hash of its samples; null before they are known.</param>
    public static BroadcastExtension Of(RunSetup setup, PrintTarget target, AudioFormat format, WriterNode? written, string? audioSha256) => new()
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{Ascii(setup.Chain.Song.Title)}, v{setup.Chain.Song.Version}: {target.Number:00} {target.Name}"),
        Originator = Encoding.ASCII.GetString(OwnFile.Maker),
        TimeReference = setup.Run.From,
        LoudnessLufs = Reading(written?.Loudness.IntegratedLufs),
        LoudnessRangeLu = Range(written?.Loudness),
        MaxTruePeakDbtp = Reading(written?.TruePeakDb),
        MaxMomentaryLufs = Reading(written?.Loudness.MomentaryMaxLufs),
        MaxShortTermLufs = Reading(written?.Loudness.ShortTermMaxLufs),
        CodingHistory = CodingHistory.PcmRow(format, setup.Encoding.Bits(), $"DrumPrint {setup.Record.Engine(target, audioSha256)}"),
    };

    // A signal under 3 s, or one that never passes the gates, has no range.
    private static double? Range(LoudnessMeter? loudness) =>
        loudness is not null && Reading(loudness.ShortTermMaxLufs) is not null && Reading(loudness.IntegratedLufs) is not null ? loudness.RangeLu : null;

    private static double? Reading(double? value) => value is { } x && double.IsFinite(x) ? x : null;

    private static string Ascii(string text) => string.Concat(text.Select(c => c is >= ' ' and <= '~' ? c : '?'));
}
