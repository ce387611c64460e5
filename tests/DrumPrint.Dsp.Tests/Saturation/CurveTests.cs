using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Saturation;
using DrumPrint.Dsp.Tests.Support;
using MathNet.Numerics.Integration;

namespace DrumPrint.Dsp.Tests.Saturation;

public sealed class CurveTests
{
    private static readonly double[] Inputs = [-40, -3.7, -1.5, -1.2, -1, -0.3, -1e-9, 0, 1e-12, 0.02, 0.5, 1, 1.5, 1.500001, 2.2, 700];

    // Values of the divided difference of x²/2, |x| − ½ computed from the formulas of Parker, Zavalishin and Le Bivic, DAFx-16.
    [Theory]
    [InlineData(0, 0.5, 0.25)]
    [InlineData(0.5, 1, 0.75)]
    [InlineData(0, 2, 0.75)]
    [InlineData(-2, 2, 0)]
    [InlineData(1.5, 0.5, 0.875)]
    public void The_hard_curves_mean_is_the_published_divided_difference(double before, double now, double expected) =>
        Assert.Equal(expected, Way<HardCurve>(before, now).Mean, SaturationTolerance.Curve);

    [Fact]
    public void The_figures_of_a_way_are_the_integrals_over_it()
    {
        Holds<SoftCurve>(Soft, x => Math.Pow(1 + (x * x), -1.5), SaturationTolerance.SoftSlopePart, SaturationTolerance.SoftBendPart);
        Holds<CubicCurve>(Cubic, x => Math.Abs(x) >= 1.5 ? 0 : 1 - (4 * x * x / 9), Tolerance.Rounding, Tolerance.Rounding);
        Holds<HardCurve>(Hard, x => Math.Abs(x) >= 1 ? 0 : 1, Tolerance.Rounding, Tolerance.Rounding);

        static void Holds<TCurve>(Func<double, double> curve, Func<double, double> slope, double slopePart, double bendPart)
            where TCurve : struct, ICurve
        {
            foreach (var a in Inputs.Where(a => Math.Abs(a) < 100))
            {
                foreach (var b in Inputs.Where(b => Math.Abs(b - a) > 0.01 && Math.Abs(b) < 100))
                {
                    var (mean, ourSlope, bend) = Way<TCurve>(a, b);
                    var expectedSlope = Integral(a, b, (x, s) => slope(x) * (0.25 - (s * s)));

                    // The bend's share of the slope is at most a half.
                    Assert.Equal(Integral(a, b, (x, _) => curve(x)), mean, Tolerance.Rounding);
                    Assert.Equal(expectedSlope, 4 * ourSlope, (slopePart * expectedSlope) + Tolerance.Rounding);
                    Assert.Equal(Integral(a, b, (x, s) => slope(x) * s * (0.25 - (s * s))), 6 * bend, (bendPart * expectedSlope / 2) + Tolerance.Rounding);
                }
            }
        }
    }

    [Fact]
    public void Neighbours_however_close_give_the_curve_itself()
    {
        Holds<SoftCurve>(Soft);
        Holds<CubicCurve>(Cubic);
        Holds<HardCurve>(Hard);

        static void Holds<TCurve>(Func<double, double> curve)
            where TCurve : struct, ICurve
        {
            foreach (var a in Inputs)
            {
                foreach (var gap in new[] { 0, 1e-300, 1e-18, 1e-16, 1e-14, 1e-13 })
                {
                    foreach (var (mean, slope, bend) in new[] { Way<TCurve>(a, a + gap), Way<TCurve>(a - gap, a) })
                    {
                        Assert.Equal(curve(a), mean, 1e-13);
                        Assert.InRange(slope, 0, (1.0 / 24) + 1e-13);
                        Assert.InRange(Math.Abs(bend), 0, 1.0 / 96);
                    }
                }
            }
        }
    }

    [Fact]
    public void Curves_are_odd_stay_within_full_scale_and_have_unit_slope_at_zero()
    {
        Holds<SoftCurve>();
        Holds<CubicCurve>();
        Holds<HardCurve>();

        static void Holds<TCurve>()
            where TCurve : struct, ICurve
        {
            foreach (var a in Inputs)
            {
                foreach (var b in Inputs)
                {
                    var (mean, slope, bend) = Way<TCurve>(a, b);
                    Assert.Equal((-mean, slope, -bend), Way<TCurve>(-a, -b) is var (m, s, t) ? (m, s, -t) : default);
                    Assert.InRange(mean, -1 - SaturationTolerance.Curve, 1 + SaturationTolerance.Curve);
                }
            }

            Assert.Equal(1e-6, Way<TCurve>(1e-6, 1e-6).Mean, 1e-6 * 1e-11);
        }
    }

    [Fact]
    public void The_slope_is_the_curves_derivative()
    {
        Holds<SoftCurve>();
        Holds<CubicCurve>();
        Holds<HardCurve>();

        static void Holds<TCurve>()
            where TCurve : struct, ICurve
        {
            foreach (var x in new[] { -0.9, -0.5, 0, 0.3, 0.99 })
            {
                const double Step = 1e-5;
                var rise = Way<TCurve>(x + Step, x + Step).Mean - Way<TCurve>(x - Step, x - Step).Mean;

                Assert.Equal(rise / (2 * Step), TCurve.Slope(x), 1e-9);
            }
        }
    }

    [Theory]
    [InlineData(1, 8, 1)]
    [InlineData(2, 2, 20)]
    [InlineData(3, 16, 0.5)]
    public void Any_number_of_lanes_gives_the_bits_of_one_for_every_channel(int channels, int phases, double level)
    {
        Holds<SoftCurve>();
        Holds<CubicCurve>();
        Holds<HardCurve>();

        void Holds<TCurve>()
            where TCurve : struct, ICurve
        {
            var alone = Bent<TCurve>((stage, input, result) => stage.Bend<Lane1>(input, result, PhaseBuffer.MaxFrames));

            Assert.Equal(alone, Bent<TCurve>((stage, input, result) => stage.Bend<Lane2>(input, result, PhaseBuffer.MaxFrames)));
            Assert.Equal(alone, Bent<TCurve>((stage, input, result) => stage.Bend<Lane4>(input, result, PhaseBuffer.MaxFrames)));
            Assert.Equal(alone, Bent<TCurve>((stage, input, result) => stage.Bend<Lane8>(input, result, PhaseBuffer.MaxFrames)));
            Assert.Equal(alone, Bent<TCurve>((stage, input, result) => stage.Bend(input, result, PhaseBuffer.MaxFrames)));
        }

        double[] Bent<TCurve>(Action<CurveStage<TCurve>, PhaseBuffer, PhaseBuffer> bend)
            where TCurve : struct, ICurve
        {
            var stage = new CurveStage<TCurve>(1, 0.1, channels);
            var input = new PhaseBuffer(phases, Oversampler.CoreHistory, channels);
            var result = new PhaseBuffer(phases, 0, channels);
            var noise = Signals.Noise(2 * input.Samples.Length, level: level);
            var bent = new List<double>();
            for (var part = 0; part < 2; part++)
            {
                for (var phase = 0; phase < phases; phase++)
                {
                    noise.AsSpan((part * input.Samples.Length) + (phase * input.Stride), PhaseBuffer.MaxFrames * channels).CopyTo(input.Row(phase, PhaseBuffer.MaxFrames));
                }

                bend(stage, input, result);
                input.Advance(PhaseBuffer.MaxFrames);
                bent.AddRange(result.Samples);
            }

            return [.. bent];
        }
    }

    // Piece by piece, so that no corner lies inside a piece.
    private static double Integral(double a, double b, Func<double, double, double> what)
    {
        double[] ends = [0, .. new[] { -1.5, -1, -0.3, 0.3, 1, 1.5 }.Select(c => (c - a) / (b - a)).Where(t => t is > 0 and < 1).Order(), 1];
        return ends.Zip(ends.Skip(1)).Sum(e => GaussLegendreRule.Integrate(t => what(a + ((b - a) * t), t - 0.5), e.First, e.Second, 128));
    }

    private static (double Mean, double Slope, double Bend) Way<TCurve>(double a, double b)
        where TCurve : struct, ICurve
    {
        (Lane1 from, Lane1 to) = (a / TCurve.Knee, b / TCurve.Knee);
        TCurve.Way(from, TCurve.Share(from), to, TCurve.Share(to), to - from, out var mean, out var slope, out var bend);
        return (mean.Value * TCurve.Knee, slope.Value, bend.Value);
    }

    private static double Soft(double x) => x / Math.Sqrt(1 + (x * x));

    private static double Cubic(double x) => Math.Abs(x) >= 1.5 ? Math.Sign(x) : x - (4 * x * x * x / 27);

    private static double Hard(double x) => Math.Clamp(x, -1, 1);
}
