using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Fits taps that turn a digital response into an analog one: least squares of the relative error, as a complex number,
/// over what is heard.</summary>
/// <remarks>Above that the taps are only held near those that change nothing. The fit moves smoothly with every setting.</remarks>
internal static class CorrectionFit
{
    /// <summary>20 kHz at 44.1 kHz, in parts of the rate. No fit reaches higher: the taps cannot turn the phase any faster to
    /// what it must be at half the rate.</summary>
    private const double HighestPart = 0.4535;

    /// <summary>20 kHz at 88.2 kHz: every fit reaches as high.</summary>
    private const double LowestPart = 0.2268;

    private const double AudibleHz = 20000;
    private const int Points = 96;

    /// <summary>How much the taps are held near those that change nothing: too little to be seen where the fit counts.</summary>
    private const double Pull = 1e-9;

    /// <summary>The top end, where errors gather, counts up to five times as much.</summary>
    private const double EdgeWeight = 4;

    /// <summary>The taps for a wanted response, so many frames late.</summary>
    /// <param name="wanted">The response by angle, radians per sample.</param>
    /// <param name="latencyFrames">Frames by which the taps lag.</param>
    /// <param name="count">How many taps; more than <paramref name="latencyFrames"/>.</param>
    /// <param name="sampleRate">Hertz.</param>
    public static double[] Taps(Func<double, ComplexValue> wanted, int latencyFrames, int count, int sampleRate)
    {
        var top = 2 * Math.PI * Math.Clamp(AudibleHz / sampleRate, LowestPart, HighestPart);
        var matrix = new double[count];
        var right = new double[count];
        for (var i = 0; i < Points; i++)
        {
            var place = (i + 0.5) / Points;
            var omega = top * place;
            var target = wanted(omega);
            var weight = Weight(place) / target.Power;

            // Sums of w |Σ dₖ e^(−jωk) − (target − 1) e^(−jωL)|², a derivative for each tap. What is wanted is taken beyond a
            // mere delay. So where nothing is wanted, nothing is rounded.
            var late = Turn(-omega * latencyFrames) * (target - 1) * weight;
            var (turn, step) = ((ComplexValue)1, Turn(omega));
            for (var k = 0; k < count; k++)
            {
                matrix[k] += weight * turn.Re;
                right[k] += (turn * late).Re;
                turn *= step;
            }
        }

        matrix[0] += Pull * matrix[0];
        var taps = SymmetricToeplitz.Solve(matrix, right);
        taps[latencyFrames]++;
        return taps;
    }

    private static double Weight(double place)
    {
        var squared = place * place;
        var fourth = squared * squared;
        return 1 + (EdgeWeight * fourth * fourth);
    }

    private static ComplexValue Turn(double angle)
    {
        var (sin, cos) = Elementary.SinCos(angle);
        return new(cos, sin);
    }
}
