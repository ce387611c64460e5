using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Rules;

/// <summary>What the sum of a dry sound and the same through a Butterworth filter loses near the corner.</summary>
/// <remarks>From the poles of the analog filter, which stand at equal angles on a circle (Butterworth 1930).</remarks>
internal static class PassDip
{
    /// <summary>The lowest level of the sum, in dB against the dry sound, and where it lies.</summary>
    /// <param name="freqHz">Corner.</param>
    /// <param name="order">Slope in dB per octave, over 6.</param>
    /// <param name="isHighPass">Or a low-pass.</param>
    /// <param name="gain">Level of the filtered sound against the dry one, linear.</param>
    public static (double Hz, double Db) Of(double freqHz, int order, bool isHighPass, double gain)
    {
        var (lowest, at) = (double.PositiveInfinity, freqHz);
        for (var step = -Steps; step <= Steps; step++)
        {
            var ratio = Elementary.Pow(2, 2.0 * step / Steps);
            var (re, im) = Response(isHighPass ? 1 / ratio : ratio, order, isHighPass);
            var power = ((1 + (gain * re)) * (1 + (gain * re))) + (gain * im * gain * im);
            (lowest, at) = power < lowest ? (power, freqHz * ratio) : (lowest, at);
        }

        return (at, TakeFigures.PowerDb(lowest));
    }

    private const int Steps = 400;

    // A high-pass is a low-pass at the inverse frequency, its phase turned over.
    private static (double Re, double Im) Response(double ratio, int order, bool isHighPass)
    {
        var (re, im) = (1.0, 0.0);
        for (var k = 0; k < order; k++)
        {
            var (sin, cos) = Elementary.SinCos(Math.PI * ((2 * k) + order + 1) / (2 * order));
            var (a, b) = (-cos, ratio - sin);
            (re, im) = ((re * a) - (im * b), (re * b) + (im * a));
        }

        var power = (re * re) + (im * im);
        return (re / power, (isHighPass ? im : -im) / power);
    }
}
