using System.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class EqLinearTests
{
    // Lower than that nobody hears how far a filter is off.
    private const double LowestDb = -60;

    public static TheoryData<int, string> Cases
    {
        get
        {
            var data = new TheoryData<int, string>();
            foreach (var rate in new[] { 44100, 48000, 96000 })
            {
                foreach (var name in Bands.Keys)
                {
                    data.Add(rate, name);
                }
            }

            return data;
        }
    }

    private static Dictionary<string, Item[]> Bands { get; } = new()
    {
        ["steep pass bands"] = [Eq.HighPass.With(Eq.HighPass.Freq.To(60), Eq.HighPass.Slope.To(48)), Eq.LowPass.With(Eq.LowPass.Freq.To(9000), Eq.LowPass.Slope.To(24))],
        ["a gentle high-pass"] = [Eq.HighPass.With(Eq.HighPass.Freq.To(100), Eq.HighPass.Slope.To(6))],
        ["bells"] = [Eq.Bell.With(Eq.Bell.Freq.To(80), Eq.Bell.Gain.To(-9), Eq.Bell.Q.To(4)), Eq.Bell.With(Eq.Bell.Freq.To(6000), Eq.Bell.Gain.To(6))],
        ["shelves and tilt"] = [Eq.LowShelf.With(Eq.LowShelf.Freq.To(120), Eq.LowShelf.Gain.To(5)), Eq.HighShelf.With(Eq.HighShelf.Freq.To(8000), Eq.HighShelf.Gain.To(-8)), Eq.Tilt.With(Eq.Tilt.Freq.To(900), Eq.Tilt.Gain.To(3))],
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Levels_are_those_of_the_minimum_form_and_no_phase_is_turned(int rate, string name)
    {
        var minimum = Response("minimum", rate, Bands[name]);
        var linear = Response("linear", rate, Bands[name]);

        foreach (var freq in Support.Response.AudibleFrequencies(60, Math.Min(20000, 0.4535 * rate)))
        {
            var level = Spectrum.Decibels(minimum(freq).Magnitude);
            if (level > LowestDb)
            {
                Assert.Equal(level, Spectrum.Decibels(linear(freq).Magnitude), FilterTolerance.LinearDb);
                Assert.InRange(Math.Abs(linear(freq).Phase) * 180 / Math.PI, 0, FilterTolerance.LinearDegrees);
            }
        }
    }

    [Fact]
    public void Bands_without_gain_only_delay()
    {
        var input = Signals.Noise(5000);

        var output = WholeSignal.Through([input], 48000, Step("linear", Eq.Bell.With(Eq.Bell.Freq.To(300), Eq.Bell.Gain.To(0))))[0];

        for (var n = 0; n < input.Length; n++)
        {
            Assert.Equal(input[n], output[n], FilterTolerance.ThereAndBack);
        }
    }

    // A pair of poles dies away by e^(−π f t / q): 60 dB take 6.9 q / (π f).
    [Fact]
    public void How_long_it_rings_before_a_hit_is_told()
    {
        double RingMs(string phase, double gain) => ((Eq)Eq.Definition.Create(
            Step(phase, Eq.Bell.With(Eq.Bell.Freq.To(100), Eq.Bell.Gain.To(gain), Eq.Bell.Q.To(4))).Settings,
            new ProcessorContext(new AudioFormat(48000, 1), 1))).PreRingMs;

        Assert.Equal(0, RingMs("minimum", -6));
        Assert.Equal(0, RingMs("linear", 0));
        Assert.InRange(RingMs("linear", -6), 0.5 * 6908 * 4 / (Math.PI * 100), 1.5 * 6908 * 4 / (Math.PI * 100));
    }

    [Fact]
    public void Bands_that_would_begin_half_a_second_early_are_refused()
    {
        var step = Step("linear", Eq.Bell.With(Eq.Bell.Freq.To(25), Eq.Bell.Gain.To(20), Eq.Bell.Q.To(30)));

        var problem = Assert.Throws<SettingsException>(() => WholeSignal.Through([[1.0]], 48000, step));

        Assert.Equal("phase", problem.Parameter!.Key);
        Assert.Contains("half a second before a hit", problem.Message, StringComparison.Ordinal);
    }

    private static ProcessorStep Step(string phase, params Item[] bands) => Eq.Definition.With(Eq.Phase.To(phase), Eq.Bands.To(bands));

    // With the latency taken out.
    private static Func<double, Complex> Response(string phase, int rate, Item[] bands)
    {
        var processor = Eq.Definition.Create(Step(phase, bands).Settings, new ProcessorContext(new AudioFormat(rate, 1), 1));
        var impulse = Run.Through(processor, [[1.0]], 1, extraFrames: (int)(processor.LatencyFrames + processor.TailFrames))[0];
        return freq => Spectrum.ResponseAt(impulse, freq, rate) * Complex.FromPolarCoordinates(1, 2 * Math.PI * freq / rate * processor.LatencyFrames);
    }
}
