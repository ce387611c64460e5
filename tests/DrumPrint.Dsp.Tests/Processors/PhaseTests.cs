using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class PhaseTests
{
    public static TheoryData<int, int, double, double> AllPasses
    {
        get
        {
            var data = new TheoryData<int, int, double, double>();
            foreach (var rate in new[] { 44100, 48000, 96000, 192000 })
            {
                foreach (var freq in new[] { 60.0, 400, 5000, 16000 })
                {
                    data.Add(rate, 1, freq, 1);
                    data.Add(rate, 2, freq, 0.5);
                    data.Add(rate, 2, freq, 4);
                }
            }

            return data;
        }
    }

    // Audio EQ Cookbook (W3C note): (s² − s/q + 1) / (s² + s/q + 1), and (1 − s) / (1 + s), where the bilinear transform looks at it.
    [Theory]
    [MemberData(nameof(AllPasses))]
    public void An_all_pass_keeps_every_level_and_turns_as_its_formula_says(int rate, int order, double freq, double q)
    {
        var impulse = Run.Through(Phase.Definition, Of((Phase.AllPass, freq), (Phase.Order, (double)order), (Phase.Q, q)), [Signals.Impulse(rate)], sampleRate: rate)[0];

        foreach (var f in Frequencies(rate))
        {
            var s = new Complex(0, Math.Tan(Math.PI * f / rate) / Math.Tan(Math.PI * freq / rate));
            var expected = order == 1 ? (1 - s) / (1 + s) : ((s * s) - (s / q) + 1) / ((s * s) + (s / q) + 1);
            AssertNear(expected, Spectrum.ResponseAt(impulse, f, rate), FormattableString.Invariant($"{f} Hz"));
        }
    }

    [Theory]
    [InlineData(44100, 90)]
    [InlineData(48000, 90)]
    [InlineData(48000, -90)]
    [InlineData(48000, 10)]
    [InlineData(48000, -45)]
    [InlineData(48000, 135)]
    [InlineData(96000, -150)]
    public void A_turn_keeps_every_level_and_turns_all_from_20_hz_on_by_its_angle(int rate, double degrees)
    {
        var processor = Phase.Definition.Create(Of((Phase.Turn, degrees)), new ProcessorContext(new AudioFormat(rate, 1), 1000));
        var impulse = Run.Through(processor, [Signals.Impulse(1)], 1, extraFrames: (int)(processor.LatencyFrames + processor.TailFrames))[0];

        foreach (var f in Frequencies(rate))
        {
            var inTime = Spectrum.ResponseAt(impulse, f, rate) * Complex.FromPolarCoordinates(1, 2 * Math.PI * f / rate * processor.LatencyFrames);
            AssertNear(Complex.FromPolarCoordinates(1, degrees * Math.PI / 180), inTime, FormattableString.Invariant($"{f} Hz"));
        }
    }

    [Fact]
    public void What_is_turned_and_turned_back_is_as_it_was()
    {
        var input = Signals.Sine(48000, 200, 0.5).Zip(Signals.Sine(48000, 3100, 0.3), (a, b) => a + b).ToArray();

        var output = WholeSignal.Through([input], 48000, Phase.Definition.With(Phase.Turn.To(70)), Phase.Definition.With(Phase.Turn.To(-70)))[0];

        for (var n = 12000; n < 36000; n++)
        {
            Assert.Equal(input[n], output[n], FilterTolerance.TurnedBack);
        }
    }

    [Theory]
    [InlineData(180)]
    [InlineData(-180)]
    public void Half_a_turn_is_polarity_bit_for_bit(double degrees)
    {
        var input = Signals.Noise(2000);

        var turned = WholeSignal.Through([input], 48000, Phase.Definition.With(Phase.Turn.To(degrees)))[0];

        Assert.Equal(WholeSignal.Through([input], 48000, Polarity.Definition.With())[0], turned);
    }

    [Fact]
    public void Nothing_asked_for_changes_no_bit_and_has_no_latency()
    {
        var input = Signals.Noise(2000);
        var processor = Phase.Definition.Create(Of(), new ProcessorContext(new AudioFormat(48000, 1), 2000));

        Assert.Equal(0, processor.LatencyFrames);
        Assert.Equal(input, Run.Through(processor, [input], 1)[0]);
    }

    [Fact]
    public void An_all_pass_alone_has_no_latency_and_one_beyond_the_rate_is_refused()
    {
        Assert.Equal(0, Phase.Definition.Create(Of((Phase.AllPass, 100.0)), new ProcessorContext(new AudioFormat(48000, 2), 100)).LatencyFrames);

        var problem = Assert.Throws<SettingsException>(() => Phase.Definition.Create(Of((Phase.AllPass, 23600.0)), new ProcessorContext(new AudioFormat(48000, 2), 100)));

        Assert.Equal("all_pass_hz", problem.Parameter!.Key);
        Assert.Contains("23519 Hz", problem.Message, StringComparison.Ordinal);
    }

    // The same figures as with 32 digits.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void An_all_pass_far_below_the_rate_adds_no_noise(int order)
    {
        BiquadCoefficients[] section = [order == 1 ? AllPassDesign.FirstOrder(10, 384000) : AllPassDesign.SecondOrder(10, 0.7071, 384000)];
        var input = Signals.Noise(100000, level: 0.5);
        var output = (double[])input.Clone();
        new FilterCascade(section).Process(output);

        Assert.InRange(Spectrum.Decibels(ExactFilter.LargestError(section, input, output)), double.NegativeInfinity, FilterTolerance.NoiseDb);
    }

    private static IEnumerable<double> Frequencies(int rate) => Response.AudibleFrequencies(24, 0.45 * rate);

    private static void AssertNear(Complex expected, Complex actual, string where)
    {
        Assert.True(Math.Abs(Spectrum.Decibels(actual.Magnitude)) <= FilterTolerance.AllPassDb, $"{where}: {Spectrum.Decibels(actual.Magnitude)} dB");
        Assert.True(Math.Abs((actual / expected).Phase) * 180 / Math.PI <= FilterTolerance.AllPassDegrees, $"{where}: {(actual / expected).Phase * 180 / Math.PI}°");
    }

    private static Settings Of(params (Parameter, object)[] values) => Settings.Of(Phase.Definition.Parameters, values);
}
