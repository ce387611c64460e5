using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

/// <summary>The equaliser's filters against the analog prototypes of the Audio EQ Cookbook (W3C note), in level and phase.</summary>
public sealed class CorrectedDesignTests
{
    private static readonly double[] Corners = [20, 200, 1000, 4000, 8000, 12000];

    public static TheoryData<int, double> Rates { get; } = new()
    {
        { 44100, FilterTolerance.Corrected44100Db },
        { 48000, FilterTolerance.Corrected48000Db },
        { 88200, FilterTolerance.CorrectedHighRateDb },
        { 192000, FilterTolerance.CorrectedHighRateDb },
        { 384000, FilterTolerance.CorrectedHighRateDb },
    };

    [Theory]
    [MemberData(nameof(Rates))]
    public void A_pass_beside_the_dry_sound_adds_up_as_the_analog_one_does(int rate, double toleranceDb)
    {
        foreach (var corner in Corners)
        {
            for (var n = 1; n <= 8; n++)
            {
                var order = n;
                AssertBlend(AnalogBand.LowPass(corner, order), s => Analog.ButterworthLowPass(s, order), rate, toleranceDb);
                AssertBlend(AnalogBand.HighPass(corner, order), s => Analog.ButterworthHighPass(s, order), rate, toleranceDb);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void A_shelf_or_bell_beside_the_dry_sound_adds_up_as_the_analog_one_does(int rate, double toleranceDb)
    {
        foreach (var corner in Corners)
        {
            foreach (var gain in new[] { -12.0, -3, 6, 12 })
            {
                foreach (var q in new[] { 0.3, 0.7071, 2, 8 })
                {
                    AssertBlend(AnalogBand.Bell(corner, gain, q), s => Analog.Bell(s, gain, q), rate, toleranceDb);
                    AssertBlend(AnalogBand.HighShelf(corner, gain, q), s => Analog.HighShelf(s, gain, q), rate, toleranceDb);
                    AssertBlend(AnalogBand.LowShelf(corner, gain, q), s => Analog.LowShelf(s, gain, q), rate, toleranceDb);
                }

                AssertBlend(AnalogBand.FirstOrderHighShelf(corner, gain), s => Analog.FirstOrderHighShelf(s, gain), rate, toleranceDb);
                AssertBlend(AnalogBand.FirstOrderLowShelf(corner, gain), s => Math.Pow(10, gain / 20) * Analog.FirstOrderHighShelf(s, -gain), rate, toleranceDb);
                AssertBlend(AnalogBand.Tilt(corner, gain), s => Math.Pow(10, -gain / 40) * Analog.FirstOrderHighShelf(s, gain), rate, toleranceDb);
            }
        }
    }

    [Theory]
    [InlineData(8000)]
    [InlineData(44100)]
    [InlineData(48000)]
    [InlineData(384000)]
    public void Every_design_is_stable_and_stays_in_bounds_above_hearing(int rate)
    {
        foreach (var part in new[] { 0.0001, 0.01, 0.1, 0.3, 0.45, 0.4899 })
        {
            var bands = new[] { -36.0, -6, 0, 12, 36 }
                .SelectMany(g => new[] { 0.1, 0.7071, 8 }.SelectMany(q => new[] { AnalogBand.Bell(part * rate, g, q), AnalogBand.HighShelf(part * rate, g, q), AnalogBand.LowShelf(part * rate, g, q) }))
                .Concat(Enumerable.Range(1, 8).SelectMany(n => new[] { AnalogBand.LowPass(part * rate, n), AnalogBand.HighPass(part * rate, n) }));
            foreach (var design in bands.Select(b => CorrectedDesign.Of([b], rate)))
            {
                Assert.All(design.Sections, s => Assert.True(Math.Abs(s.A2) < 1 && s.D2 > 0 && 4 - (2 * s.D1) + s.D2 > 0, s.ToString()));
                Assert.All(design.Taps, t => Assert.InRange(t, -50, 50));
            }
        }
    }

    [Fact]
    public void No_band_at_all_only_waits()
    {
        var design = CorrectedDesign.Of([], 48000);

        Assert.Equal(Enumerable.Range(0, design.Taps.Count).Select(n => n == design.LatencyFrames ? 1.0 : 0), design.Taps.Select(t => Math.Round(t, 10)));
    }

    private static void AssertBlend(AnalogBand band, Func<Complex, Complex> analog, int rate, double toleranceDb)
    {
        var worst = Response.WorstBlendDb(CorrectedDesign.Of([band], rate), f => analog(new Complex(0, f / band.FreqHz)), 20000, rate);

        Assert.True(worst < toleranceDb, $"{band} at {rate}: {worst} dB");
    }
}
