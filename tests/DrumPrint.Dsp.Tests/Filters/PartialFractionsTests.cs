using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class PartialFractionsTests
{
    [Theory]
    [InlineData(8000)]
    [InlineData(48000)]
    [InlineData(192000)]
    public void The_fractions_answer_a_click_as_the_sections_in_series_do(int sampleRate)
    {
        var sections = KWeighting.Sections(sampleRate);
        var series = new FilterCascade(sections);
        var (direct, first, second) = PartialFractions.Of(sections);
        var (one, other) = (Section(first), Section(second));

        for (var n = 0; n < sampleRate / 10; n++)
        {
            var x = n == 0 ? 1.0 : 0.0;
            Assert.Equal(series.Next(x), (direct * x) + one.Next(x) + other.Next(x), 1e-10); // a meter shows thousandths of a decibel
        }
    }

    private static Biquad Section(PartialFraction f) => new(BiquadCoefficients.FromDirect(f.B0, f.B1, 0, f.A1, f.A2));
}
