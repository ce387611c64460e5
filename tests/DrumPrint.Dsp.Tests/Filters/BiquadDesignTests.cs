using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class BiquadDesignTests
{
    private const double Butterworth = 0.70710678118654752;
    private static readonly double HalfPowerDb = 10 * Math.Log10(0.5);

    public static TheoryData<int> Rates { get; } = new(8000, 44100, 48000, 96000, 384000);

    [Theory]
    [MemberData(nameof(Rates))]
    public void Butterworth_filters_are_3_01_dB_down_at_the_corner(int rate)
    {
        foreach (var part in new[] { 0.001, 0.02, 0.2, 0.4 })
        {
            for (var order = 1; order <= 8; order++)
            {
                var tolerance = FilterTolerance.CornerDb * ((order + 1) / 2);
                Assert.Equal(HalfPowerDb, Response.DbAt(BiquadDesign.LowPass(part * rate, order, rate), part * rate, rate), tolerance);
                Assert.Equal(HalfPowerDb, Response.DbAt(BiquadDesign.HighPass(part * rate, order, rate), part * rate, rate), tolerance);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Gains_are_exact_at_the_ends_and_the_middle(int rate)
    {
        foreach (var part in new[] { 0.001, 0.05, 0.3 })
        {
            var freq = part * rate;
            foreach (var gain in new[] { -12.0, -1, 0, 6 })
            {
                Assert.Equal(0, Response.DbAt(BiquadDesign.Bell(freq, gain, 2, rate), 0, rate), FilterTolerance.ClosedFormDb);
                Assert.Equal(gain, Response.DbAt(BiquadDesign.Bell(freq, gain, 2, rate), freq, rate), FilterTolerance.CornerDb);
                Assert.Equal(gain, Response.DbAt(BiquadDesign.LowShelf(freq, gain, Butterworth, rate), 0, rate), FilterTolerance.ClosedFormDb);
                Assert.Equal(gain / 2, Response.DbAt(BiquadDesign.LowShelf(freq, gain, Butterworth, rate), freq, rate), FilterTolerance.CornerDb);
                Assert.Equal(0, Response.DbAt(BiquadDesign.HighShelf(freq, gain, Butterworth, rate), 0, rate), FilterTolerance.ClosedFormDb);
                Assert.Equal(gain / 2, Response.DbAt(BiquadDesign.HighShelf(freq, gain, Butterworth, rate), freq, rate), FilterTolerance.CornerDb);
                Assert.Equal(gain / 2, Response.DbAt(BiquadDesign.FirstOrderHighShelf(freq, gain, rate), freq, rate), FilterTolerance.CornerDb);
                Assert.Equal(-gain / 2, Response.DbAt(BiquadDesign.Tilt(freq, gain, rate), 0, rate), FilterTolerance.ClosedFormDb);
                Assert.Equal(0, Response.DbAt(BiquadDesign.Tilt(freq, gain, rate), freq, rate), FilterTolerance.CornerDb);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Every_design_is_stable_and_so_is_its_inverse_where_it_is_used(int rate)
    {
        foreach (var part in new[] { 0.00005, 0.001, 0.02, 0.1, 0.2, 0.3, 0.4, 0.45, 0.4899 })
        {
            var freq = part * rate;
            for (var order = 1; order <= 8; order++)
            {
                AssertStable(BiquadDesign.HighPass(freq, order, rate));
                AssertStable(BiquadDesign.LowPass(freq, order, rate));
            }

            foreach (var q in new[] { 0.1, 0.3, 0.5, Butterworth, 1, 8, 30 })
            {
                foreach (var gain in new[] { -36.0, -12, 0, 0.1, 12, 36 })
                {
                    AssertStable(BiquadDesign.Bell(freq, gain, q, rate));
                    AssertStable(BiquadDesign.HighShelf(freq, gain, q, rate));
                    AssertStable(BiquadDesign.LowShelf(freq, gain, q, rate));
                    AssertStable(BiquadDesign.Tilt(freq, gain, rate));
                }
            }
        }
    }

    // The number in each remark of the fits, against ω² itself.
    [Theory]
    [InlineData(44100, 0.0032)]
    [InlineData(48000, 0.0011)]
    [InlineData(88200, 0.0000031)]
    public void The_warp_follows_the_squared_frequency(int rate, double relative)
    {
        var warp = MatchedWarp.For(rate);
        var ratios = Response.AudibleFrequencies().Select(f =>
        {
            var omega = 2 * Math.PI * f / rate;
            var sin = Math.Sin(omega / 2);
            return 4 * warp.At(sin * sin) / (omega * omega);
        }).ToArray();

        // Up to a common factor, the errors are as far above as below.
        Assert.InRange((ratios.Max() - ratios.Min()) / (ratios.Max() + ratios.Min()), 0, relative);
    }

    [Theory]
    [InlineData(44100)]
    [InlineData(48000)]
    [InlineData(88200)]
    public void The_warp_rises_all_the_way(int rate)
    {
        var values = Enumerable.Range(0, 1001).Select(i => MatchedWarp.For(rate).At(i / 1000.0)).ToArray();

        Assert.All(values.Zip(values.Skip(1)), pair => Assert.True(pair.Second > pair.First));
    }

    [Fact]
    public void A_frequency_at_49_hundredths_of_the_rate_is_refused()
    {
        var problem = Assert.Throws<SettingsException>(() => BiquadDesign.LowPass(21609, 2, 44100));

        Assert.Contains("21608 Hz", problem.Message, StringComparison.Ordinal);
        Assert.Single(BiquadDesign.HighPass(21608, 1, 44100));
    }

    // Values computed from the published analog filter with the formulas of BS.1770's own tables, 12 digits.
    [Theory]
    [InlineData(44100, 1.530841230050, -2.650979995155, 1.169079079922, -1.663655113256, 0.712595428073, -1.989169673630, 0.989199035787)]
    [InlineData(96000, 1.559714228976, -2.926741578251, 1.378261202316, -1.844609469890, 0.855843322931, -1.995017544725, 0.995023759041)]
    [InlineData(192000, 1.572227215091, -3.047283051562, 1.477971340980, -1.922202230607, 0.925117735117, -1.997507222841, 0.997508778356)]
    public void The_weighting_at_other_rates_has_the_expected_coefficients(int rate, double b0, double b1, double b2, double a1, double a2, double highPassA1, double highPassA2)
    {
        var sections = KWeighting.Sections(rate);

        Assert.Equal(b0, sections[0].B0, FilterTolerance.Printed);
        Assert.Equal(b1, sections[0].B1, FilterTolerance.Printed);
        Assert.Equal(b2, sections[0].B2, FilterTolerance.Printed);
        Assert.Equal(a1, sections[0].A1, FilterTolerance.Printed);
        Assert.Equal(a2, sections[0].A2, FilterTolerance.Printed);
        Assert.Equal(highPassA1, sections[1].A1, FilterTolerance.Printed);
        Assert.Equal(highPassA2, sections[1].A2, FilterTolerance.Printed);
    }

    // Source: ITU-R BS.1770-5, annex 1, tables 1 and 2, every digit as printed.
    [Fact]
    public void The_weighting_at_48_kHz_has_every_printed_digit()
    {
        var (shelf, highPass) = (KWeighting.Sections(48000)[0], KWeighting.Sections(48000)[1]);

        Assert.Equal(1.53512485958697, shelf.B0, FilterTolerance.LastDigit);
        Assert.Equal(-2.69169618940638, shelf.B1, FilterTolerance.LastDigit);
        Assert.Equal(1.19839281085285, shelf.B2, FilterTolerance.LastDigit);
        Assert.Equal(-1.69065929318241, shelf.A1, FilterTolerance.LastDigit);
        Assert.Equal(0.73248077421585, shelf.A2, FilterTolerance.LastDigit);
        Assert.Equal((1, -2, 1), (highPass.B0, highPass.B1, highPass.B2));
        Assert.Equal(-1.99004745483398, highPass.A1, FilterTolerance.LastDigit);
        Assert.Equal(0.99007225036621, highPass.A2, FilterTolerance.LastDigit);
    }

    private static void AssertStable(BiquadCoefficients[] sections)
    {
        foreach (var section in sections)
        {
            // The triangle |a2| < 1, |a1| < 1 + a2; for the second in δ, d2 > 0 and 4 − 2 d1 + d2 > 0.
            Assert.True(Math.Abs(section.A2) < 1 && section.D2 > 0 && 4 - (2 * section.D1) + section.D2 > 0, section.ToString());
        }
    }
}
