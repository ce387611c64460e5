using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The standard equalisation of a tape speed, as two time constants.</summary>
/// <param name="BassSeconds">Time constant t1 of the bass; 0 where the standard has none.</param>
/// <param name="TrebleSeconds">Time constant t2 of the treble.</param>
/// <remarks>
/// Values: IASA TC-04, 5.4.10, table 1. On the way in, bass is raised by 1 + 1/(jωt1) and treble by 1 + jωt2; on the way out both
/// are lowered by the same. Our own simplification: the record side's treble boost is the whole inverse of the standard flux
/// curve. So treble reaches the medium louder and bends earlier, the more so the slower the tape.
/// </remarks>
internal readonly record struct TapeEqualization(double BassSeconds, double TrebleSeconds)
{
    // Where the bass boost of the way in ends, so that nothing grows without bound towards 0 Hz.
    private const double BassEndHz = 2;

    /// <summary>The equalisation of a speed in inches per second.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The standard has no curve for the speed.</exception>
    public static TapeEqualization For(double speed, bool isNab) => (speed, isNab) switch
    {
        (7.5, false) => new(0, 70e-6),
        (15, false) => new(0, 35e-6),
        (30, false) => new(0, 17.5e-6),
        (7.5 or 15, true) => new(3180e-6, 50e-6),
        _ => throw new ArgumentOutOfRangeException(nameof(speed)),
    };

    /// <summary>Gain of the way in at a frequency.</summary>
    public double GainIn(double freqHz)
    {
        var w = 2 * Math.PI * freqHz;
        var bass = BassSeconds == 0 ? 0 : 1 / (w * BassSeconds);
        var treble = w * TrebleSeconds;
        return Math.Sqrt((1 + (bass * bass)) * (1 + (treble * treble)));
    }

    /// <summary>The bass part of the way in, at the frame rate, if there is one; its inverse is that of the way out.</summary>
    public BiquadCoefficients[] BassIn(int sampleRate)
    {
        if (BassSeconds == 0)
        {
            return [];
        }

        // (s + 1/t1)/(s + ω) by the bilinear transform; both corners are far below half the rate.
        var k = 2.0 * sampleRate;
        var zero = 1 / BassSeconds;
        var pole = 2 * Math.PI * BassEndHz;
        return [BiquadCoefficients.FromDirect((k + zero) / (k + pole), (zero - k) / (k + pole), 0, (pole - k) / (k + pole), 0)];
    }

    /// <summary>The treble part of the way out, at twice the frame rate; its inverse is that of the way in.</summary>
    /// <remarks>One pole where the analog one maps to, one zero placed so that the gain is right at the end of the flat band too.</remarks>
    public FirstOrder TrebleOut(int sampleRate)
    {
        var rate = 2.0 * sampleRate;
        var edgeHz = BandFilter.PassEdge * sampleRate;
        var pole = Elementary.Exp(-1 / (TrebleSeconds * rate));
        var fall = 1 - Elementary.Cos(2 * Math.PI * edgeHz / rate);
        var edge = 2 * Math.PI * edgeHz * TrebleSeconds;

        // With the zero at −b and unity gain at 0 Hz, the zero's power at the edge is 1 − 2b·fall/(1 + b)².
        var polePower = 1 + (2 * pole * fall / ((1 - pole) * (1 - pole)));
        var s = (1 - (polePower / (1 + (edge * edge)))) / (2 * fall);
        var b = 2 * s / (1 - (2 * s) + Math.Sqrt(1 - (4 * s)));
        var gain = (1 - pole) / (1 + b);
        return new FirstOrder(gain, gain * b, -pole);
    }
}
