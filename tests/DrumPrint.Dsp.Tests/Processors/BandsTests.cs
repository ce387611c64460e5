using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class BandsTests
{
    private const int Rate = 48000;

    // Where the rounding of 64-bit sums lies, some 300 dB down, with a filter's worth of them.
    private const double Rounding = 1e-12;
    private const double FlatDb = 0.0001;

    // A linear middle band is the difference of two low ones, so what it lets through far away is the error of both: −88 dB.
    private const double NearDb = 0.03;
    private const double FarAway = 4e-5;

    private static readonly double[][] Splits = [[120], [120, 2500], [90, 700, 5000], [40, 60, 18000]];

    public static TheoryData<int, int, int> Rows
    {
        get
        {
            var data = new TheoryData<int, int, int>();
            foreach (var rate in new[] { 44100, 96000 })
            {
                foreach (var slope in new[] { 24, 48 })
                {
                    for (var splits = 0; splits < Splits.Length; splits++)
                    {
                        data.Add(rate, slope, splits);
                    }
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void Bands_in_which_nothing_happens_keep_every_level(int rate, int slope, int splits)
    {
        var impulse = WholeSignal.Through([[1.0]], rate, Step(Splits[splits], slope, "minimum"))[0];

        foreach (var f in Response.AudibleFrequencies(60, 0.45 * rate))
        {
            Assert.Equal(0, Spectrum.Decibels(Spectrum.ResponseAt(impulse, f, rate).Magnitude), FlatDb);
        }
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void Linear_bands_in_which_nothing_happens_are_the_signal_itself(int rate, int slope, int splits)
    {
        double[][] input = [Signals.Noise(30000, 1), Signals.Noise(30000, 2)];

        var output = WholeSignal.Through(input, rate, Step(Splits[splits], slope, "linear"));

        for (var channel = 0; channel < 2; channel++)
        {
            Assert.All(output[channel].Take(30000).Zip(input[channel]), pair => Assert.Equal(pair.Second, pair.First, Rounding));
            Assert.All(output[channel].Skip(30000), x => Assert.Equal(0, x, Rounding));
        }
    }

    // Linkwitz, JAES 24(1), 1976: two Butterworth filters of half the order after one another, on each side.
    [Theory]
    [InlineData("minimum", 24)]
    [InlineData("minimum", 48)]
    [InlineData("linear", 24)]
    [InlineData("linear", 48)]
    public void A_band_falls_as_two_butterworth_filters_do(string phase, int slope)
    {
        double[] splits = [150, 3000];
        foreach (var band in new[] { Bands.Low, Bands.Mid, Bands.High })
        {
            var impulse = Alone(band, splits, slope, phase);
            foreach (var f in Response.AudibleFrequencies(60, 16000))
            {
                var expected = Expected(band, splits, slope, f, phase == "minimum");
                var found = Spectrum.ResponseAt(impulse, f, Rate).Magnitude;
                Assert.True(
                    Math.Abs(found - expected) < Math.Max(FarAway, expected * NearDb / 8.7),
                    FormattableString.Invariant($"{band.Key} at {f:0} Hz: {Spectrum.Decibels(found):0.000} dB, expected {Spectrum.Decibels(expected):0.000}"));
            }
        }
    }

    [Theory]
    [InlineData("minimum")]
    [InlineData("linear")]
    public void A_slow_processor_in_one_band_makes_the_others_wait(string phase)
    {
        // Above any level of the signal it only looks ahead.
        var idle = Bands.Through.Kinds.Single(k => k.Key == "compress").With((Compress.Threshold, 20.0), (Compress.Ahead, 2.0));
        var input = Signals.Noise(40000, 5);

        var plain = WholeSignal.Through([input], Rate, Step([200], 24, phase))[0];
        var waited = WholeSignal.Through([input], Rate, Step([200], 24, phase, Bands.High.With((Bands.Through, (IReadOnlyList<Item>)[idle]))))[0];

        Assert.All(plain.Zip(waited), pair => Assert.Equal(pair.First, pair.Second, Rounding));
    }

    [Fact]
    public void A_compressor_in_one_band_leaves_the_other_alone()
    {
        var compress = Bands.Through.Kinds.Single(k => k.Key == "compress");
        var low = Bands.Low.With((Bands.Through, (IReadOnlyList<Item>)[compress.With((Compress.Threshold, -40.0), (Compress.Ratio, 8.0))]));
        double[] input = [.. Enumerable.Range(0, 48000).Select(n => (0.4 * Math.Sin(2 * Math.PI * 60 * n / Rate)) + (0.4 * Math.Sin(2 * Math.PI * 6000 * n / Rate)))];

        var output = WholeSignal.Through([input], Rate, Step([600], 48, "linear", low))[0];

        var late = output.AsSpan(24000, 24000);
        Assert.Equal(0.4, 2 * Spectrum.ResponseAt(late, 6000, Rate).Magnitude / late.Length, 1e-4);
        Assert.True(2 * Spectrum.ResponseAt(late, 60, Rate).Magnitude / late.Length < 0.06);
    }

    [Fact]
    public void What_turns_down_in_a_band_is_told_with_the_band_it_stands_in()
    {
        var kind = Bands.Through.Kinds.Single(k => k.Key == "compress");
        var low = Bands.Low.With((Bands.Through, (IReadOnlyList<Item>)[kind.With((Compress.Threshold, -40.0), (Compress.Ahead, 2.0))]));

        var bands = (Bands)Bands.Definition.Create(Step([200], 24, "linear", low).Settings, new ProcessorContext(new AudioFormat(Rate, 1), 1000));

        var told = Assert.Single(bands.Reducers);
        Assert.Equal("low compress", told.Name);
        Assert.Equal(bands.LatencyFrames, told.LatencyFrames);
    }

    [Fact]
    public void A_processor_that_is_off_does_nothing()
    {
        var kind = Bands.Through.Kinds.Single(k => k.Key == "saturate");
        var off = Bands.Low.With((Bands.Through, (IReadOnlyList<Item>)[kind.With((Saturate.Drive, 20.0), (ProcessorKind.Off, true))]));
        var input = Signals.Noise(4000, 5);

        Assert.Equal(WholeSignal.Through([input], Rate, Step([200], 24, "minimum"))[0], WholeSignal.Through([input], Rate, Step([200], 24, "minimum", off))[0]);
    }

    [Theory]
    [InlineData(new[] { 200.0, 250 }, "'split_2_hz' is 250 Hz. The split before it is at 200 Hz, so it must be at 300 Hz or above.")]
    [InlineData(new[] { 20000.0 }, "20000 Hz is too high for a sample rate of 32000 Hz; the highest frequency is 15679 Hz.")]
    public void Splits_that_part_nothing_are_refused(double[] splits, string expected)
    {
        var refusal = Assert.Throws<SettingsException>(() => WholeSignal.Through([[1.0]], 32000, Step(splits, 24, "minimum")));

        Assert.Equal(expected, refusal.Message);
    }

    [Fact]
    public void A_band_that_is_not_there_is_refused_with_those_that_are()
    {
        var refusal = Assert.Throws<SettingsException>(() => WholeSignal.Through([[1.0]], Rate, Step([200], 24, "minimum", Bands.Mid.With())));

        Assert.Equal("With 1 of 'split_hz', 'split_2_hz' and 'split_3_hz' there are 2 bands: low, high. 'mid' is none of them.", refusal.Message);
    }

    private static double Expected(ItemKind band, double[] splits, int slope, double f, bool isBilinear)
    {
        double Below(double split)
        {
            var ratio = isBilinear ? Math.Tan(Math.PI * f / Rate) / Math.Tan(Math.PI * split / Rate) : f / split;
            return 1 / (1 + Math.Pow(ratio, slope / 6.0));
        }

        // The linear middle is a difference, the steep one a product.
        return band.Key switch
        {
            "low" => Below(splits[0]),
            "mid" => isBilinear ? (1 - Below(splits[0])) * Below(splits[1]) : Below(splits[1]) - Below(splits[0]),
            _ => isBilinear ? (1 - Below(splits[0])) * (1 - Below(splits[1])) : 1 - Below(splits[1]),
        };
    }

    // The others 60 dB down twice leave nothing: each band sums with level_db alone, so two runs are taken apart.
    private static double[] Alone(ItemKind band, double[] splits, int slope, string phase)
    {
        var click = Signals.Impulse(2 * Rate, at: Rate);
        var plain = WholeSignal.Through([click], Rate, Step(splits, slope, phase))[0];
        var louder = WholeSignal.Through([click], Rate, Step(splits, slope, phase, band.With((Bands.Level, 20 * Math.Log10(2)))))[0];
        return [.. louder.Zip(plain, (a, b) => a - b)];
    }

    private static ProcessorStep Step(double[] splits, int slope, string phase, params Item[] items)
    {
        NumberParameter[] places = [Bands.Split, Bands.Split2, Bands.Split3];
        return Bands.Definition.With([
            .. splits.Select((s, i) => ((Parameter)places[i], (object)s)),
            (Bands.Slope, (double)slope),
            (Bands.Phase, phase),
            (Bands.In, (IReadOnlyList<Item>)items),
        ]);
    }
}
