namespace DrumPrint.Session;

/// <summary>Lengths in whole seconds.</summary>
internal static class WholeSeconds
{
    /// <summary>The first whole second at or after a frame, in frames.</summary>
    /// <param name="frame">0 or more.</param>
    /// <param name="rateHz">Frames of a second.</param>
    public static long Up(long frame, int rateHz) => (frame + rateHz - 1) / rateHz * rateHz;
}
