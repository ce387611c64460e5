using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

/// <summary>Digital filters against the analog prototypes of the Audio EQ Cookbook (W3C note).</summary>
public sealed class MatchedResponseTests
{
    private const double Butterworth = 0.70710678118654752;

    private static readonly int[] Rates = [44100, 48000, 88200, 96000, 192000];
    private static readonly double[] Corners = [50, 200, 1000, 4000, 8000, 10000, 12000, 16000];

    public static TheoryData<int> AllRates { get; } = new(Rates);

    [Theory]
    [MemberData(nameof(AllRates))]
    public void Shelves_and_bells_follow_the_analog_curves(int rate)
    {
        foreach (var corner in Corners)
        {
            foreach (var gain in new[] { -12.0, -3, 6, 12 })
            {
                foreach (var q in new[] { 0.3, 0.5, Butterworth, 1, 2, 4, 8 })
                {
                    var shelfTolerance = FilterTolerance.MatchedDb(rate) * (q > 2 ? FilterTolerance.ResonantShelfFactor : 1);
                    Check(BiquadDesign.Bell(corner, gain, q, rate), s => Analog.Bell(s, gain, q), corner, rate, FilterTolerance.MatchedDb(rate));
                    Check(BiquadDesign.LowShelf(corner, gain, q, rate), s => Analog.LowShelf(s, gain, q), corner, rate, shelfTolerance);
                    Check(BiquadDesign.HighShelf(corner, gain, q, rate), s => Analog.HighShelf(s, gain, q), corner, rate, shelfTolerance);
                }

                Check(BiquadDesign.FirstOrderHighShelf(corner, gain, rate), s => Analog.FirstOrderHighShelf(s, gain), corner, rate, FilterTolerance.MatchedDb(rate));
                Check(
                    BiquadDesign.FirstOrderLowShelf(corner, gain, rate),
                    s => Math.Pow(10, gain / 20) * Analog.FirstOrderHighShelf(s, -gain),
                    corner,
                    rate,
                    FilterTolerance.MatchedDb(rate));
                Check(
                    BiquadDesign.Tilt(corner, gain, rate),
                    s => Math.Pow(10, -gain / 40) * Analog.FirstOrderHighShelf(s, gain),
                    corner,
                    rate,
                    FilterTolerance.MatchedDb(rate));
            }
        }
    }

    /// <summary>Worst error of the closed-form matched designs (Vicanek's, as two general libraries give them) for the same
    /// settings. It is computed from their formulas at 44.1, 48 and 96 kHz.</summary>
    [Theory]
    [InlineData("high shelf", 10000, 6, Butterworth, 0.070, 0.055, 0.006)]
    [InlineData("high shelf", 10000, -12, Butterworth, 0.158, 0.126, 0.011)]
    [InlineData("high shelf", 16000, 6, Butterworth, 0.195, 0.142, 0.027)]
    [InlineData("high shelf", 16000, -12, Butterworth, 0.370, 0.270, 0.052)]
    [InlineData("bell", 10000, 6, 1, 0.486, 0.304, 0.012)]
    [InlineData("bell", 12000, 12, 2, 0.611, 0.352, 0.011)]
    [InlineData("low-pass", 10000, 0, Butterworth, 1.52, 0.91, 0.02)]
    public void No_design_is_worse_than_the_second_order_matched_one(string kind, double corner, double gain, double q, double at44100, double at48000, double at96000)
    {
        foreach (var (rate, theirs) in new[] { (44100, at44100), (48000, at48000), (96000, at96000) })
        {
            var ours = kind switch
            {
                "high shelf" => Response.WorstDb(BiquadDesign.HighShelf(corner, gain, q, rate), s => Analog.HighShelf(s, gain, q), corner, rate),
                "bell" => Response.WorstDb(BiquadDesign.Bell(corner, gain, q, rate), s => Analog.Bell(s, gain, q), corner, rate),
                _ => Response.WorstDb(BiquadDesign.LowPass(corner, 2, rate), s => Analog.LowPass(s, q), corner, rate),
            };

            Assert.True(ours < theirs / 2, $"{kind} {corner} Hz at {rate}: {ours} dB, theirs {theirs} dB");
        }
    }

    [Theory]
    [MemberData(nameof(AllRates))]
    public void Butterworth_filters_follow_their_definition(int rate)
    {
        foreach (var corner in new[] { 20.0, 35, 1000, 10000, 16000 })
        {
            for (var order = 1; order <= 8; order++)
            {
                var tolerance = order * FilterTolerance.MatchedDb(rate);
                var highPass = BiquadDesign.HighPass(corner, order, rate);
                var lowPass = BiquadDesign.LowPass(corner, order, rate);
                foreach (var freq in Response.AudibleFrequencies(60))
                {
                    AssertNear(Analog.ButterworthHighPassDb(freq / corner, order), Response.DbAt(highPass, freq, rate), tolerance);
                    AssertNear(Analog.ButterworthLowPassDb(freq / corner, order), Response.DbAt(lowPass, freq, rate), tolerance);
                }
            }
        }
    }

    // Blending with the unfiltered sound hears phase; the bounds record what is reached.
    [Theory]
    [InlineData(44100, 39, 43)]
    [InlineData(48000, 32, 20)]
    [InlineData(96000, 7.1, 11)]
    public void Phase_stays_near_the_analog_filter(int rate, double shelfDegrees, double lowPassDegrees)
    {
        var shelf = Response.WorstDegrees(BiquadDesign.HighShelf(16000, 12, Butterworth, rate), s => Analog.HighShelf(s, 12, Butterworth), 16000, rate);
        var lowPass = Response.WorstDegrees(BiquadDesign.LowPass(10000, 2, rate), s => Analog.LowPass(s, Butterworth), 10000, rate);

        Assert.InRange(shelf, 0, shelfDegrees);
        Assert.InRange(lowPass, 0, lowPassDegrees);
    }

    private static void Check(BiquadCoefficients[] sections, Func<Complex, Complex> analog, double corner, int rate, double tolerance)
    {
        var worst = Response.AudibleFrequencies(60).Max(f =>
            Math.Abs(Response.DbAt(sections, f, rate) - (20 * Math.Log10(analog(new Complex(0, f / corner)).Magnitude))));
        Assert.True(worst < tolerance, $"{worst} dB at {rate}, corner {corner}");
    }

    // Far down a slope (below −150 dB) rounding in the textbook form shows; nobody hears there.
    private static void AssertNear(double expectedDb, double actualDb, double tolerance)
    {
        if (expectedDb > -150)
        {
            Assert.InRange(actualDb, expectedDb - tolerance, expectedDb + tolerance);
        }
    }
}
