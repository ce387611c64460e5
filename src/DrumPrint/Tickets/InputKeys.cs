using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys of an input file.</summary>
internal static class InputKeys
{
    public static readonly TextParameter Name = new("name", TextKind.Title, "The word the chain uses.") { IsRequired = true };

    public static readonly TextParameter File = new("file", TextKind.Path, "Its path, as the chain gives it.") { IsRequired = true };

    public static readonly TextParameter AudioSha256 = new("audio_sha256", TextKind.Sha256, "Hash of the samples, lowest byte first; other names, tags and byte orders do not change it.") { IsRequired = true };

    public static readonly TextParameter FileSha256 = new("file_sha256", TextKind.Sha256, "Hash of the whole file.");

    public static readonly NumberParameter Frames = RecordKeys.Frames("Length.");

    public static readonly NumberParameter Start = new("starts_after_frames", Unit.Frames, 0, 1e12, null, "How far into its track it begins, where the track is of several files.") { IsWhole = true };

    public static readonly NumberParameter Rate = new("rate_hz", Unit.Hertz, 1, 10_000_000, null, "Sample rate.") { IsWhole = true, IsRequired = true };

    public static readonly NumberParameter Channels = new("channels", Unit.None, 1, 65535, null, "Number of channels.") { IsWhole = true, IsRequired = true };

    public static readonly Shape Shape = new("an input", "A file that went in.", [Name, File, AudioSha256, FileSha256, Start, Frames, Rate, Channels, EncodingKeys.Encoding]);
}
