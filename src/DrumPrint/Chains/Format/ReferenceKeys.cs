using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of <c>reference</c>.</summary>
internal static class ReferenceKeys
{
    public static readonly TextParameter File = new("file", TextKind.Path, "The song's own mix, mono or stereo.") { IsRequired = true };

    public static readonly NumberParameter Latency = new("latency_ms", Unit.Milliseconds, 0, 60000, 0, "How much too late the song lies in the file; the mix is moved earlier by it.");

    public static readonly ToggleParameter Convert = new("convert", false, "Whether a file at another sample rate is resampled instead of refused.");

    public static readonly Shape Shape = new(
        "the reference",
        "The song's own mix; a path alone is short for its file. It is heard on the bench only, never printed.",
        [File, DelayKeys.Milliseconds, DelayKeys.Frames, Latency, Convert])
    {
        Shorthand = File,
    };
}
