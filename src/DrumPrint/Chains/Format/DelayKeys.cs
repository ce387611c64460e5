using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The three ways to give a delay; one at a time.</summary>
internal static class DelayKeys
{
    public static readonly NumberParameter Milliseconds = new("delay_ms", Unit.Milliseconds, 0, 1000, null, "Delay in milliseconds.");

    public static readonly NumberParameter Frames = new("delay_frames", Unit.Frames, 0, 384000, null, "Delay in frames (samples per channel).");

    public static readonly NumberParameter Metres = new("delay_m", Unit.Metres, 0, 300, null, "Delay as the distance sound travels in the air of the room.");

    public static readonly ToggleParameter Exact = new("exact", false, "Whether the delay keeps its part of a frame, by a filter, instead of going to the nearest whole frame.");

    public static IReadOnlyList<NumberParameter> All { get; } = [Milliseconds, Frames, Metres];
}
