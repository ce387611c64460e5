using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Spectral;

/// <summary>The Kaiser window, whose one number trades main-lobe width for side-lobe level.</summary>
/// <remarks>Source: J. F. Kaiser's design formulas as given in Oppenheim and Schafer, Discrete-Time Signal Processing,
/// section on the Kaiser window (from memory).</remarks>
public static class KaiserWindow
{
    /// <summary>Shape number β for a stop-band attenuation in dB (positive, 21 or more).</summary>
    public static double Beta(double attenuationDb) => attenuationDb > 50
        ? 0.1102 * (attenuationDb - 8.7)
        : (0.5842 * Elementary.Pow(attenuationDb - 21, 0.4)) + (0.07886 * (attenuationDb - 21));

    /// <summary>Window value at <paramref name="position"/> from −1 (start) through 0 (centre) to 1 (end); 0 outside.</summary>
    public static double At(double position, double beta)
    {
        var inside = 1 - (position * position);
        return inside < 0 ? 0 : Elementary.BesselI0(beta * Math.Sqrt(inside)) / Elementary.BesselI0(beta);
    }

    /// <summary>Number of taps that reaches an attenuation (dB) with a transition band given as a part of the sample rate.</summary>
    public static int Taps(double attenuationDb, double transition) =>
        (int)Math.Ceiling((attenuationDb - 7.95) / (14.36 * transition)) + 1;
}
