using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Second-order sections worked out to 32 digits.</summary>
internal static class ExactFilter
{
    /// <summary>Largest distance of a filtered signal from what the sections' own coefficients give.</summary>
    public static double LargestError(BiquadCoefficients[] sections, double[] input, double[] output)
    {
        var signal = Array.ConvertAll(input, x => (DoubleDouble)x);
        foreach (var c in sections)
        {
            DoubleDouble s1 = 0;
            DoubleDouble s2 = 0;
            for (var n = 0; n < signal.Length; n++)
            {
                var x = signal[n];
                var y = (c.B0 * x) + s1;
                s1 = s1 + s2 + (c.N1 * x) - (c.D1 * y);
                s2 = s2 + (c.N2 * x) - (c.D2 * y);
                signal[n] = y;
            }
        }

        return output.Zip(signal, (a, b) => Math.Abs((a - b.High) - b.Low)).Max();
    }
}
