using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Filters;

/// <summary>Taps that turn every frequency by the same angle: cos θ of the wave, and sin θ of the wave turned by a right angle.</summary>
/// <remarks>
/// The right angle is the ideal Hilbert transformer, 2 / (π k) at odd k, under a Kaiser window: Oppenheim and Schafer, Discrete-Time
/// Signal Processing, chapter on the discrete Hilbert transform (from memory). Its gaps at 0 Hz and at half the rate are
/// <see cref="LowestHz"/> wide. No filter can turn by a constant angle and not begin before the wave does: as much lies before the
/// centre as after.
/// </remarks>
public static class RotationDesign
{
    /// <summary>From here on, and as far below half the rate, the angle is exact. At 0 Hz cos θ is left.</summary>
    public const double LowestHz = 20;

    private const double AttenuationDb = 100;

    /// <summary>Frames by which the taps lag, at a rate in hertz.</summary>
    public static int Centre(int sampleRate) => (KaiserWindow.Taps(AttenuationDb, 2 * LowestHz / sampleRate) + 1) / 2;

    /// <summary>The taps, twice <see cref="Centre"/> and one.</summary>
    /// <param name="degrees">The angle; above zero what comes out is ahead.</param>
    /// <param name="sampleRate">Hertz.</param>
    public static double[] Taps(double degrees, int sampleRate)
    {
        var (sin, cos) = Elementary.SinCos(degrees * Math.PI / 180);
        var beta = KaiserWindow.Beta(AttenuationDb);
        var centre = Centre(sampleRate);
        var taps = new double[(2 * centre) + 1];
        taps[centre] = cos;
        for (var k = 1; k <= centre; k += 2)
        {
            var tap = sin * 2 / (Math.PI * k) * KaiserWindow.At((double)k / centre, beta);
            taps[centre - k] = tap;
            taps[centre + k] = -tap;
        }

        return taps;
    }
}
