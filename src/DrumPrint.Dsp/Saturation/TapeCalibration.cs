using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Finds the field at which the medium bends a sine by a stated amount.</summary>
internal static class TapeCalibration
{
    private const int StepsPerCycle = 256;
    private const int Halvings = 40;
    private const double HighestField = 16;

    /// <summary>Peak field of a sine whose third harmonic has a given ratio to the first in the magnetisation.</summary>
    public static double FieldFor(double thirdHarmonicRatio, double freqHz)
    {
        var (low, high) = (0.0, HighestField);
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = ThirdHarmonicRatio(middle, freqHz) < thirdHarmonicRatio ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private static double ThirdHarmonicRatio(double peak, double freqHz)
    {
        // The first cycle settles the medium, the second is measured.
        var medium = TapeMedium.Memory(freqHz * StepsPerCycle);
        var (sin1, cos1, sin3, cos3) = (0.0, 0.0, 0.0, 0.0);
        for (var step = 0; step < 2 * StepsPerCycle; step++)
        {
            var (sin, cos) = Elementary.SinCos(2 * Math.PI * step / StepsPerCycle);
            var m = medium.Next(peak * sin);
            if (step >= StepsPerCycle)
            {
                sin1 += m * sin;
                cos1 += m * cos;
                sin3 += m * sin * (3 - (4 * sin * sin));
                cos3 += m * cos * ((4 * cos * cos) - 3);
            }
        }

        return Math.Sqrt(((sin3 * sin3) + (cos3 * cos3)) / ((sin1 * sin1) + (cos1 * cos1)));
    }
}
