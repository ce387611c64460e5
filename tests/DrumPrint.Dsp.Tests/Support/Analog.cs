using System.Numerics;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>The analog filters of the Audio EQ Cookbook (R. Bristow-Johnson, W3C note), as formulas in s with the corner at 1.</summary>
internal static class Analog
{
    public static Complex LowPass(Complex s, double q) => 1 / ((s * s) + (s / q) + 1);

    public static Complex HighPass(Complex s, double q) => s * s / ((s * s) + (s / q) + 1);

    public static Complex Bell(Complex s, double gainDb, double q)
    {
        var a = Math.Pow(10, gainDb / 40);
        return ((s * s) + (s * (a / q)) + 1) / ((s * s) + (s / (a * q)) + 1);
    }

    public static Complex LowShelf(Complex s, double gainDb, double q)
    {
        var a = Math.Pow(10, gainDb / 40);
        return a * ((s * s) + (Math.Sqrt(a) / q * s) + a) / ((a * s * s) + (Math.Sqrt(a) / q * s) + 1);
    }

    public static Complex HighShelf(Complex s, double gainDb, double q)
    {
        var a = Math.Pow(10, gainDb / 40);
        return a * ((a * s * s) + (Math.Sqrt(a) / q * s) + 1) / ((s * s) + (Math.Sqrt(a) / q * s) + a);
    }

    /// <summary>First-order shelf: the gain far above, half of its decibels at the corner.</summary>
    public static Complex FirstOrderHighShelf(Complex s, double gainDb)
    {
        var a = Math.Pow(10, gainDb / 40);
        return (1 + (a * s)) / (1 + (s / a));
    }

    /// <summary>Butterworth power response, from its definition: 1 / (1 + Ω^2n).</summary>
    public static double ButterworthLowPassDb(double frequency, int order) => -10 * Math.Log10(1 + Math.Pow(frequency, 2 * order));

    public static double ButterworthHighPassDb(double frequency, int order) => ButterworthLowPassDb(1 / frequency, order);

    /// <summary>Butterworth low-pass as a complex number: poles on the unit circle at equal angles.</summary>
    public static Complex ButterworthLowPass(Complex s, int order) =>
        Enumerable.Range(0, order).Aggregate(Complex.One, (h, k) => h / (s - Complex.FromPolarCoordinates(1, Math.PI * ((2 * k) + order + 1) / (2.0 * order))));

    public static Complex ButterworthHighPass(Complex s, int order) => ButterworthLowPass(1 / s, order);
}
