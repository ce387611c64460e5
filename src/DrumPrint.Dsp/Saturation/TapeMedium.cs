using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The magnetic medium of the tape processor: its constants, and the field at which it bends by a stated amount.</summary>
/// <remarks>Pinning and reversibility are those of a published model of γ-ferric oxide tape without bias (k 27 kA/m,
/// a 22 kA/m, c 0.17; DAFx-19, from memory). The bias loosens the rest within 5 µs, half a period of 100 kHz.</remarks>
internal static class TapeMedium
{
    public const double Pinning = 27.0 / 22.0;
    public const double Reversible = 0.17;
    public const double ShakeSeconds = 5e-6;

    /// <summary>Slope of the magnetisation at zero field.</summary>
    public const double SmallSignalGain = 1.0 / 3.0;

    private const int StepsPerCycle = 256;

    public static Hysteresis At(double rate) => new(Pinning, Reversible, 1 / (ShakeSeconds * rate));

    /// <summary>What undoes the lag of the medium for small signals, exactly, at a rate.</summary>
    /// <remarks>For small signals the gap is g(1 − z⁻¹)/(1 − pz⁻¹) of the anhysteretic part; see <see cref="Hysteresis"/>.</remarks>
    public static FirstOrder Straightener(double rate)
    {
        var half = 0.5 / (ShakeSeconds * rate);
        var keep = (1 - half) / (1 + half);
        var lag = (1 - Reversible) / (1 + half);
        return new FirstOrder(1 / (1 - lag), -keep / (1 - lag), (lag - keep) / (1 - lag));
    }

    /// <summary>Peak field of a sine whose third harmonic has a given ratio to the first in the magnetisation.</summary>
    public static double FieldFor(double thirdHarmonicRatio, double freqHz)
    {
        var (low, high) = (0.0, 16.0);
        for (var i = 0; i < 40; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = ThirdHarmonicRatio(middle, freqHz) < thirdHarmonicRatio ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private static double ThirdHarmonicRatio(double peak, double freqHz)
    {
        var medium = At(freqHz * StepsPerCycle);
        Span<double> first = stackalloc double[2];
        Span<double> third = stackalloc double[2];
        for (var step = 0; step < 2 * StepsPerCycle; step++)
        {
            var angle = 2 * Math.PI * step / StepsPerCycle;
            var (sin, cos) = Elementary.SinCos(angle);
            var m = medium.Next(peak * sin, Langevin.Of(peak * sin));
            if (step >= StepsPerCycle)
            {
                var (sin3, cos3) = Elementary.SinCos(3 * angle);
                first[0] += m * sin;
                first[1] += m * cos;
                third[0] += m * sin3;
                third[1] += m * cos3;
            }
        }

        return Math.Sqrt(((third[0] * third[0]) + (third[1] * third[1])) / ((first[0] * first[0]) + (first[1] * first[1])));
    }
}
