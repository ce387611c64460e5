using System.Numerics;
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
        Assert.Equal(expected, Mean<HardCurve>(now, before), SaturationTolerance.Curve);

    [Fact]
    public void The_mean_is_the_integral_of_the_curve_over_the_way()
    {
        Holds<SoftCurve>(Soft);
        Holds<CubicCurve>(Cubic);
        Holds<HardCurve>(Hard);

        static void Holds<TCurve>(Func<double, double> curve)
            where TCurve : struct, ICurve
        {
            foreach (var a in Inputs)
            {
                foreach (var b in Inputs.Where(b => Math.Abs(b - a) > 0.01 && Math.Abs(b) < 100 && Math.Abs(a) < 100))
                {
                    // Piece by piece, so that no corner lies inside a piece.
                    double[] ends = [Math.Min(a, b), .. new[] { -1.5, -1, 1, 1.5 }.Where(c => c > Math.Min(a, b) && c < Math.Max(a, b)), Math.Max(a, b)];
                    var integral = ends.Zip(ends.Skip(1)).Sum(e => GaussLegendreRule.Integrate(curve, e.First, e.Second, 128));

                    Assert.Equal(integral / Math.Abs(a - b), Mean<TCurve>(a, b), Tolerance.Rounding);
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
                    Assert.Equal(curve(a), Mean<TCurve>(a, a + gap), 1e-13);
                    Assert.Equal(curve(a), Mean<TCurve>(a - gap, a), 1e-13);
                }
            }
        }
    }

    [Fact]
    public void Two_means_in_a_row_are_the_two_means()
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
                    foreach (var c in Inputs)
                    {
                        var (va, vb, vc) = (new Vector<double>(a), new Vector<double>(b), new Vector<double>(c));
                        var curve = default(TCurve);
                        var (first, second) = curve.Means(va, curve.Share(va), vb, curve.Share(vb), vc, curve.Share(vc));

                        Assert.Equal(Mean<TCurve>(b, a), first[0], SaturationTolerance.Curve);
                        Assert.Equal(Mean<TCurve>(c, b), second[0], SaturationTolerance.Curve);
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
                    Assert.Equal(Mean<TCurve>(a, b), -Mean<TCurve>(-a, -b));
                    Assert.InRange(Mean<TCurve>(a, b), -1, 1);
                }
            }

            Assert.Equal(1e-6, Mean<TCurve>(1e-6, 1e-6), 1e-6 * 1e-11);
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
                var rise = Mean<TCurve>(x + Step, x + Step) - Mean<TCurve>(x - Step, x - Step);

                Assert.Equal(rise / (2 * Step), default(TCurve).Slope(x), 1e-9);
            }
        }
    }

    private static double Mean<TCurve>(double a, double b)
        where TCurve : struct, ICurve
    {
        var (va, vb) = (new Vector<double>(a), new Vector<double>(b));
        return default(TCurve).Mean(va, default(TCurve).Share(va), vb, default(TCurve).Share(vb))[0];
    }

    private static double Soft(double x) => x / Math.Sqrt(1 + (x * x));

    private static double Cubic(double x) => Math.Abs(x) >= 1.5 ? Math.Sign(x) : x - (4 * x * x * x / 27);

    private static double Hard(double x) => Math.Clamp(x, -1, 1);
}
