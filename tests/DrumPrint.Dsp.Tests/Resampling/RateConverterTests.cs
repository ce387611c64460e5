using DrumPrint.Dsp.Resampling;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Resampling;

/// <summary>What a conversion must give follows from the sampling theorem alone: the same sine, sampled at the new rate.</summary>
public sealed class RateConverterTests
{
    public static TheoryData<int, int> Rates => new()
    {
        { 44100, 48000 },
        { 48000, 44100 },
        { 48000, 96000 },
        { 96000, 48000 },
        { 44100, 88200 },
        { 88200, 44100 },
        { 192000, 44100 },
        { 44101, 48000 },
        { 48000, 44099 },
    };

    [Theory]
    [MemberData(nameof(Rates))]
    public void Sine_in_the_pass_band_comes_out_as_that_sine_sampled_at_the_new_rate(int fromHz, int toHz)
    {
        var upper = 0.9 * Math.Min(fromHz, toHz) / 2;
        foreach (var freqHz in new[] { 20, 997, 0.25 * upper, 0.5 * upper, 0.75 * upper, 0.95 * upper, upper })
        {
            var input = Signals.Sine(fromHz / 20, freqHz, 1, 0.3, fromHz);

            var output = RateConverter.Convert(input, fromHz, toHz);

            // The ends hold half a filter of silence each; all that is not the sine in between is image, alias, ripple or shift.
            var edge = output.Length / 4;
            var worst = Enumerable.Range(edge, output.Length - (2 * edge))
                .Max(n => Math.Abs(output[n] - Math.Sin((2 * Math.PI * freqHz * n / toHz) + 0.3)));
            Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SpectralTolerance.RateConversionDb);
        }
    }

    [Theory]
    [InlineData(48000, 44100)]
    [InlineData(96000, 48000)]
    [InlineData(88200, 44100)]
    [InlineData(192000, 44100)]
    [InlineData(48000, 44099)]
    public void Sine_above_the_lower_rates_limit_is_140_dB_down(int fromHz, int toHz)
    {
        foreach (var place in new[] { 0.0, 0.02, 0.1, 0.5, 0.95 })
        {
            var freqHz = (toHz / 2.0) + (place * (fromHz - toHz) / 2);
            var input = Signals.Sine(fromHz / 20, freqHz, 1, 0.3, fromHz);

            var output = RateConverter.Convert(input, fromHz, toHz);

            var edge = output.Length / 4;
            Assert.InRange(Spectrum.Decibels(output[edge..^edge].Max(Math.Abs)), double.NegativeInfinity, SpectralTolerance.RateConversionDb);
        }
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Output_is_the_input_length_at_the_new_rate_rounded_up(int fromHz, int toHz)
    {
        foreach (var frames in new[] { 0, 1, 2, 147, 160, 4096, 4097, 10001 })
        {
            Assert.Equal((int)Math.Ceiling((decimal)frames * toHz / fromHz), RateConverter.Convert(Signals.Noise(frames), fromHz, toHz).Length);
        }
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Cuts_in_the_input_never_show(int fromHz, int toHz)
    {
        var input = Signals.Noise(9000, 5);
        var want = RateConverter.Convert(input, fromHz, toHz);

        foreach (var cut in new[] { 1, 7, 480, 5000 })
        {
            Assert.Equal(want, InParts(new RateConverter(fromHz, toHz), input, cut));
        }
    }

    [Theory]
    [InlineData(44100, 48000)]
    [InlineData(48000, 44099)]
    public void Every_lane_width_gives_the_same_bits(int fromHz, int toHz)
    {
        var input = Signals.Noise(1000, 6);
        var want = InParts(new RateConverter(fromHz, toHz, 1), input, 1000);

        foreach (var lanes in new[] { 2, 4, 8 })
        {
            Assert.Equal(want, InParts(new RateConverter(fromHz, toHz, lanes), input, 1000));
        }
    }

    [Theory]
    [InlineData(44100, 48000)]
    [InlineData(48000, 96000)]
    [InlineData(44100, 88200)]
    public void There_and_back_again_nulls_below_minus_120_dB_in_band(int fromHz, int otherHz)
    {
        var input = new double[fromHz / 4];
        for (var partial = 1; partial <= 40; partial++)
        {
            var sine = Signals.Sine(input.Length, partial * 0.9 * Math.Min(fromHz, otherHz) / 2 / 40, 0.025, partial, fromHz);
            for (var n = 0; n < input.Length; n++)
            {
                input[n] += sine[n] * Math.Pow(Math.Sin(Math.PI * n / input.Length), 4);
            }
        }

        var back = RateConverter.Convert(RateConverter.Convert(input, fromHz, otherHz), otherHz, fromHz);

        var worst = Enumerable.Range(0, input.Length).Max(n => Math.Abs(back[n] - input[n])) / input.Max(Math.Abs);
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, -120);
    }

    [Fact]
    public void Equal_rates_change_nothing()
    {
        var input = Signals.Noise(10000, 7);

        Assert.Equal(input, RateConverter.Convert(input, 48000, 48000));
    }

    [Theory]
    [InlineData(44100, 48000)]
    [InlineData(48000, 44099)]
    public void Processing_allocates_nothing(int fromHz, int toHz)
    {
        var converter = new RateConverter(fromHz, toHz);
        var input = Signals.Noise(5000, 8);
        var output = new double[converter.RoomFor(input.Length)];

        Assert.Equal(0, Allocations.Of(() => converter.Process(input, output)));
    }

    [Theory]
    [InlineData(7999, 48000)]
    [InlineData(48000, 384001)]
    public void Rate_out_of_range_is_refused(int fromHz, int toHz) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RateConverter(fromHz, toHz));

    private static double[] InParts(RateConverter converter, double[] input, int partFrames)
    {
        var output = new List<double>();
        var room = new double[Math.Max(converter.RoomFor(partFrames), converter.RoomToFinish)];
        for (var start = 0; start < input.Length; start += partFrames)
        {
            var written = converter.Process(input.AsSpan(start, Math.Min(partFrames, input.Length - start)), room);
            output.AddRange(room.AsSpan(0, written));
        }

        output.AddRange(room.AsSpan(0, converter.Finish(room)));
        return [.. output];
    }
}
