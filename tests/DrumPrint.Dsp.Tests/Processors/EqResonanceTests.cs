using System.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

/// <summary>High- and low-passes whose edge rises, against their analog formula.</summary>
public sealed class EqResonanceTests
{
    [Theory]
    [InlineData("high_pass", 90, 12, 2)]
    [InlineData("high_pass", 90, 24, 4)]
    [InlineData("low_pass", 900, 12, 0.5)]
    [InlineData("low_pass", 4000, 12, 8)]
    [InlineData("low_pass", 900, 30, 3)]
    public void Its_levels_are_those_of_the_formula(string kind, double freqHz, double slope, double q)
    {
        var impulse = Run.Through(Eq.Definition, Of(kind, freqHz, slope, q), [Signals.Impulse(192000)])[0];

        foreach (var part in new[] { 0.25, 0.5, 0.8, 1, 1.25, 2, 4 })
        {
            var expected = Formula(kind, part, (int)slope / 6, q).Magnitude;
            Assert.Equal(Spectrum.Decibels(expected), Spectrum.Decibels(Spectrum.ResponseAt(impulse, part * freqHz).Magnitude), Tolerance.ResponseDb);
        }
    }

    [Fact]
    public void At_its_default_and_at_6_dB_per_octave_nothing_changes()
    {
        var input = Signals.Noise(4000);
        foreach (var kind in new[] { Eq.HighPass, Eq.LowPass })
        {
            double[] Through(params (Parameter, object)[] more) => Run.Through(Eq.Definition, Settings.Of(Eq.Definition.Parameters, Eq.Bands.To(kind.With([kind.Freq.To(500), .. more]))), [input])[0];

            Assert.Equal(Through(), Through(kind.Q.To(0.7071)));
            Assert.Equal(Through(kind.Slope.To(6)), Through(kind.Slope.To(6), kind.Q.To(5)));
            Assert.NotEqual(Through(), Through(kind.Q.To(2)));
        }
    }

    // Butterworth's pairs of poles, the sharpest one q · √2 times as sharp.
    private static Complex Formula(string kind, double part, int order, double q)
    {
        var s = kind == "low_pass" ? new Complex(0, part) : 1 / new Complex(0, part);
        var response = order % 2 == 1 ? 1 / (s + 1) : Complex.One;
        for (var pair = 1; pair <= order / 2; pair++)
        {
            var damping = 2 * Math.Sin(Math.PI * ((2 * pair) - 1) / (2 * order));
            response /= (s * s) + (s * (pair == 1 ? damping / (q * Math.Sqrt(2)) : damping)) + 1;
        }

        return response;
    }

    private static Settings Of(string kind, double freqHz, double slope, double q)
    {
        var pass = kind == "high_pass" ? Eq.HighPass : Eq.LowPass;
        return Settings.Of(Eq.Definition.Parameters, Eq.Bands.To(pass.With(pass.Freq.To(freqHz), pass.Slope.To(slope), pass.Q.To(q))));
    }
}
