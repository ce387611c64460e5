using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys of a print in a ticket.</summary>
internal static class TicketPrintKeys
{
    public static readonly NumberParameter Number = new("number", Unit.None, 1, 99, null, "First part of the file name.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Name = new("name", TextKind.FileNamePart, "Second part of the file name.") { IsRequired = true };

    public static readonly ChoiceParameter Kind = new(
        "kind",
        [
            new("playing", "part of the rough"),
            new("optional", "an extra with its fader down"),
            new("rough", "the sum of the playing prints"),
            new("rough_with_bus", "the rough through the drum bus"),
            new("click", "clicks on the beats"),
        ],
        "playing",
        "What it is.");

    public static readonly TextParameter File = new("file", TextKind.Path, "The file beside the ticket.") { IsRequired = true };

    public static readonly NumberParameter Channels = new("channels", Unit.None, 1, 2, null, "Number of channels.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter AudioSha256 = new("audio_sha256", TextKind.Sha256, "Hash of the sample bytes.") { IsRequired = true };

    public static readonly TextParameter FileSha256 = new("file_sha256", TextKind.Sha256, "Hash of the whole file.") { IsRequired = true };

    public static readonly NumberParameter Peak = Level("peak_dbfs", "Largest sample before rounding; left out for silence.");

    public static readonly NumberParameter TruePeak = Level("true_peak_dbtp", "Highest level between samples before rounding, ITU-R BS.1770-5; left out for silence.");

    public static readonly NumberParameter Integrated = Level("integrated_lufs", "Gated loudness; left out without a reading.");

    public static readonly NumberParameter Range = Level("range_lu", "Loudness range.");

    public static readonly NumberParameter MaxMomentary = Level("max_momentary_lufs", "Loudest 400 ms; left out without a reading.");

    public static readonly NumberParameter MaxShortTerm = Level("max_short_term_lufs", "Loudest 3 s; left out without a reading.");

    public static readonly ShapesParameter GainReduction = new("gain_reduction", GainReductionKeys.Shape, "Work of each processor that moves the gain, in the print's bus and in every bus that feeds it; on a rough only its own.");

    public static readonly NumberParameter Latency = new("latency_frames", Unit.Frames, 0, 1e15, 0, "Processing delay that was taken out.") { IsWhole = true };

    public static readonly NumberParameter Tail = new("tail_s", Unit.Seconds, 0, 1e6, 0, "Seconds after the raw tracks end until it stays 90 dB below its peak.");

    public static readonly Shape Shape = new(
        "a print", "A file that came out.",
        [Number, Name, Kind, File, Channels, AudioSha256, FileSha256, Peak, TruePeak, Integrated, Range, MaxMomentary, MaxShortTerm, GainReduction, Latency, Tail]);

    private static NumberParameter Level(string key, string help) => new(key, Unit.None, -10_000, 10_000, null, help);
}
