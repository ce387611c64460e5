namespace DrumPrint.Chains;

/// <summary>Where a microphone stood, in metres from any one point of the room that all of a session share.</summary>
/// <param name="XM">To one side.</param>
/// <param name="YM">To the front or the back.</param>
/// <param name="ZM">Up.</param>
public readonly record struct MicrophonePlace(double XM, double YM, double ZM)
{
    /// <summary>The way between two places, in metres.</summary>
    public double To(MicrophonePlace other)
    {
        var (x, y, z) = (XM - other.XM, YM - other.YM, ZM - other.ZM);
        return Math.Sqrt((x * x) + (y * y) + (z * z));
    }

    public override string ToString() => FormattableString.Invariant($"[{XM}, {YM}, {ZM}]");
}
