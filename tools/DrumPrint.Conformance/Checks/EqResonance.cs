using System.Numerics;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>High- and low-passes whose edge rises.</summary>
internal static class EqResonance
{
    public static IEnumerable<Check> All() =>
    [
        .. new[] { 12, 24, 30 }.Select(slope => new Check("eq", $"high- and low-passes of {slope} dB per octave, 90 Hz to 4 kHz, q 0.5 to 8: worst level, two octaves on either side", "1 / (s² + s / q + 1), and Butterworth's pairs with the sharpest q · √2 times as sharp", Bar.AtMost(0.02, "dB", 4), () => WorstDb(slope))),
    ];

    private static double WorstDb(int slope) =>
        (from kind in new[] { Eq.HighPass, Eq.LowPass }
         from freq in new[] { 90.0, 900, 4000 }
         from q in new[] { 0.5, 2, 8 }
         let impulse = Run.Through(Eq.Definition, Dsp.Parameters.Settings.Of(Eq.Definition.Parameters, Eq.Bands.To(kind.With(kind.Freq.To(freq), kind.Slope.To(slope), kind.Q.To(q)))), [Signals.Impulse(96000)])[0]
         from part in new[] { 0.25, 0.5, 0.8, 1, 1.25, 2, 4 }
         select Math.Abs(Spectrum.Decibels(Spectrum.ResponseAt(impulse, part * freq).Magnitude / Formula(kind == Eq.LowPass, part, slope / 6, q)))).Max();

    private static double Formula(bool isLow, double part, int order, double q)
    {
        var s = isLow ? new Complex(0, part) : 1 / new Complex(0, part);
        var response = order % 2 == 1 ? 1 / (s + 1) : Complex.One;
        for (var pair = 1; pair <= order / 2; pair++)
        {
            var damping = 2 * Math.Sin(Math.PI * ((2 * pair) - 1) / (2 * order));
            response /= (s * s) + (s * (pair == 1 ? damping / (q * Math.Sqrt(2)) : damping)) + 1;
        }

        return response.Magnitude;
    }
}
