using System.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class EqTests
{
    [Theory]
    [InlineData("bell")]
    [InlineData("low_shelf")]
    [InlineData("high_shelf")]
    public void A_cut_undoes_the_same_boost(string kind)
    {
        var input = Signals.Noise(4000);

        var processor = Eq.Definition.Create(
            Of(Band(kind, ("freq_hz", 9000), ("gain_db", 9)), Band(kind, ("freq_hz", 9000), ("gain_db", -9))),
            new ProcessorContext(new AudioFormat(Run.SampleRate, 1), input.Length));
        var output = Run.Through(processor, [input], 1)[0][processor.LatencyFrames..];

        for (var i = 0; i < output.Length; i++)
        {
            Assert.Equal(input[i], output[i], FilterTolerance.Undone);
        }
    }

    [Theory]
    [InlineData(44100)]
    [InlineData(48000)]
    [InlineData(96000)]
    [InlineData(384000)]
    public void The_latency_is_the_same_whatever_the_bands(int rate)
    {
        var context = new ProcessorContext(new AudioFormat(rate, 2), 1000);
        Settings[] several =
        [
            Of(Band("bell", ("freq_hz", 50), ("gain_db", 3))),
            Of(Band("low_pass", ("freq_hz", 16000), ("slope_db_per_oct", 48)), Band("high_pass", ("freq_hz", 8000), ("slope_db_per_oct", 48))),
            Of(Band("tilt", ("freq_hz", 1000), ("gain_db", -6))),
        ];

        Assert.Single(several.Select(s => Eq.Definition.Create(s, context).LatencyFrames).Distinct());
    }

    // The case that showed what an unmatched phase does: 1.55 dB off at 10.9 kHz.
    [Theory]
    [InlineData(8000)]
    [InlineData(9250)]
    [InlineData(9500)]
    public void A_low_pass_blended_with_the_dry_sound_is_the_analog_sum(double corner)
    {
        var settings = Of(Band("low_pass", ("freq_hz", corner), ("slope_db_per_oct", 12)));
        var processor = Eq.Definition.Create(settings, new ProcessorContext(new AudioFormat(Run.SampleRate, 1), 4000));
        var sum = Run.Through(processor, [Signals.Impulse(4000)], 1)[0];
        sum[processor.LatencyFrames] += 1;

        foreach (var freq in new[] { 500.0, 5000, 8000, 10900, 15000 })
        {
            var analog = 1 + Analog.ButterworthLowPass(new Complex(0, freq / corner), 2);
            Assert.Equal(Spectrum.Decibels(analog.Magnitude), Spectrum.Decibels(Spectrum.ResponseAt(sum, freq).Magnitude), FilterTolerance.BlendDb);
        }
    }

    [Fact]
    public void Bands_add_up_in_decibels()
    {
        var impulse = Signals.Impulse(48000);
        var first = Band("bell", ("freq_hz", 300), ("gain_db", -4), ("q", 1.5));
        var second = Band("high_pass", ("freq_hz", 40), ("slope_db_per_oct", 18));

        var both = Run.Through(Eq.Definition, Of(first, second), [impulse])[0];
        var alone = new[] { first, second }.Select(b => Run.Through(Eq.Definition, Of(b), [impulse])[0]).ToArray();

        foreach (var freq in new[] { 50.0, 200, 300, 5000 })
        {
            var sum = alone.Sum(x => Spectrum.Decibels(Spectrum.ResponseAt(x, freq).Magnitude));
            Assert.Equal(sum, Spectrum.Decibels(Spectrum.ResponseAt(both, freq).Magnitude), Tolerance.ResponseDb);
        }
    }

    [Fact]
    public void A_tilt_leaves_its_pivot_and_leans_by_half_to_each_side()
    {
        var impulse = Run.Through(Eq.Definition, Of(Band("tilt", ("freq_hz", 800), ("gain_db", 6))), [Signals.Impulse(48000)])[0];

        Assert.Equal(0, Spectrum.Decibels(Spectrum.ResponseAt(impulse, 800).Magnitude), Tolerance.ResponseDb);
        Assert.Equal(-3, Spectrum.Decibels(Spectrum.ResponseAt(impulse, 0).Magnitude), Tolerance.ResponseDb);
        Assert.InRange(Spectrum.Decibels(Spectrum.ResponseAt(impulse, 20000).Magnitude), 2.9, 3);
    }

    [Fact]
    public void A_frequency_beyond_the_rate_is_refused_with_the_highest_one()
    {
        var settings = Of(Band("bell", ("freq_hz", 24000), ("gain_db", 3)));

        var problem = Assert.Throws<SettingsException>(() => Run.Through(Eq.Definition, settings, [Signals.Silence(1)]));

        Assert.Contains("23519 Hz", problem.Message, StringComparison.Ordinal);
        Assert.Equal("freq_hz", problem.Parameter!.Key);
    }

    [Fact]
    public void A_slope_between_the_steps_is_refused() =>
        Assert.Throws<SettingsException>(() => Band("high_pass", ("freq_hz", 100), ("slope_db_per_oct", 9)));

    private static Settings Of(params Item[] bands) => Settings.Of(Eq.Definition.Parameters, (Eq.Bands, (IReadOnlyList<Item>)bands));

    private static Item Band(string kind, params (string Key, double Value)[] values)
    {
        var found = Eq.Bands.Kinds.Single(k => k.Key == kind);
        return new Item(found, Settings.Of(found.Parameters, values.Select(v => (found.Parameters.Single(p => p.Key == v.Key), (object)v.Value))));
    }
}
