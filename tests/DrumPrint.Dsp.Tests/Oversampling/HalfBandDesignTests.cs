using System.Numerics;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Oversampling;

public sealed class HalfBandDesignTests
{
    public static TheoryData<int, int> Steps
    {
        get
        {
            var data = new TheoryData<int, int>();
            foreach (var rate in new[] { 8000, 44100, 48000, 88200, 96000, 192000 })
            {
                for (var step = 0; step < 4; step++)
                {
                    data.Add(step, rate);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Steps))]
    public void What_mirrors_the_flat_band_is_stopped_on_the_way_up_by_the_shortest_response_that_can(int step, int rate) =>
        AssertStops(BandFilter.For(rate).Up(step), step, FlatBand(rate));

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void What_mirrors_half_the_frame_rate_is_stopped_on_the_way_down_by_the_shortest_response_that_can(int step) => AssertStops(BandFilter.Down(step), step, 0.5);

    [Theory]
    [MemberData(nameof(Steps))]
    public void Every_other_tap_is_zero_but_the_middle_one(int step, int rate)
    {
        var response = BandFilter.For(rate).Up(step);

        var middle = response.Length / 2;
        Assert.Equal(response.Reverse(), response);
        Assert.All(Enumerable.Range(0, response.Length), n => Assert.Equal(n == middle || ((n - middle) & 1) == 1, response[n] != 0));
        Assert.Equal(0.5, response[middle]);
    }

    // Chebyshev's alternation theorem: of all fits with n weights, the best reaches its greatest error n + 1 times, in turn up and down.
    [Theory]
    [InlineData(3, 0.03125)]
    [InlineData(8, 0.125)]
    [InlineData(23, 20 / 48.0 / 2)]
    [InlineData(41, 20 / 44.1 / 2)]
    public void The_error_alternates_once_more_than_there_are_weights(int terms, double edge)
    {
        var (taps, error) = HalfBandDesign.Fit(terms, edge);

        var reached = new List<bool>();
        for (var i = 0; i <= 20000; i++)
        {
            var w = 2 * Math.PI * edge * Math.Sin(Math.PI / 2 * i / 20000);
            var stray = taps.Select((t, k) => 2 * t * Math.Cos(((2 * k) + 1) * w)).Sum() - 0.5;
            Assert.InRange(Math.Abs(stray), 0, error * 1.02);
            if (Math.Abs(stray) > error * 0.98 && (reached.Count == 0 || reached[^1] != stray > 0))
            {
                reached.Add(stray > 0);
            }
        }

        Assert.Equal(terms + 1, reached.Count);
    }

    private static void AssertStops(double[] response, int step, double band)
    {
        var bar = step == 0 ? SaturationTolerance.StopBandDb : SaturationTolerance.LaterStopBandDb;
        var edge = band / (2 << step);

        var worst = Enumerable.Range(0, 2001).Max(i => At(response, 0.5 - (edge * i / 2000)).Magnitude);

        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, bar);
        Assert.InRange(Spectrum.Decibels(HalfBandDesign.Fit((response.Count(h => h != 0) / 2) - 1, edge).Error), bar, 0);
    }

    private static double FlatBand(int rate) => Math.Min(20 / 44.1, Math.Max(20000.0 / rate, 0.4));

    private static Complex At(double[] response, double cycles) =>
        response.Select((h, n) => h * Complex.FromPolarCoordinates(1, -2 * Math.PI * cycles * n)).Aggregate((a, b) => a + b);
}
