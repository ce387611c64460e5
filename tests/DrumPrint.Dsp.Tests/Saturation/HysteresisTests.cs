using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Saturation;
using DrumPrint.Dsp.Tests.Support;
using Xunit.Abstractions;

namespace DrumPrint.Dsp.Tests.Saturation;

/// <summary>Constants in A/m: Ms 350 k, a 22 k, α 1.6·10⁻³, k 27 k, c 0.17 (DAFx-19, from memory).</summary>
public sealed class HysteresisTests(ITestOutputHelper output)
{
    private const double Saturation = 350e3;
    private const double Shape = 22e3;
    private const double Coupling = 1.6e-3;
    private const double Pinning = 27e3;
    private const double Reversible = 0.17;
    private const int StepsPerCycle = 512;

    // Computed from the published closed form by fourth-order Runge-Kutta with 20 000 steps per half loop, third cycle.
    [Theory]
    [InlineData(50e3, 126428, 63660, 17030)]
    [InlineData(100e3, 238709, 89070, 20000)]
    [InlineData(200e3, 304976, 91300, 20240)]
    public void Loops_have_the_height_remanence_and_width_of_the_published_equations(double peakField, double peak, double remanence, double width)
    {
        var (h, m) = Loop(peakField, cycles: 3);

        var falling = Enumerable.Range(StepsPerCycle / 4, StepsPerCycle / 2).Select(i => i + (2 * StepsPerCycle)).ToArray();
        var measuredRemanence = Crossing(falling, h, m);
        var measuredWidth = -Crossing(falling, m, h);

        output.WriteLine($"{peakField}: peak {m.Skip(2 * StepsPerCycle).Max():0}, remanence {measuredRemanence:0}, width {measuredWidth:0}");
        Assert.Equal(peak, m.Skip(2 * StepsPerCycle).Max(), peak * SaturationTolerance.LoopPart);
        Assert.Equal(remanence, measuredRemanence, remanence * SaturationTolerance.LoopPart);
        Assert.Equal(width, measuredWidth, width * SaturationTolerance.LoopPart);
    }

    [Fact]
    public void Loops_close_are_odd_run_the_lossy_way_round_and_stay_below_saturation()
    {
        foreach (var peakField in new[] { 50e3, 100e3, 200e3, 500e3 })
        {
            var (h, m) = Loop(peakField, cycles: 6);

            var last = m.Length - StepsPerCycle;
            var area = Enumerable.Range(last, StepsPerCycle - 1).Sum(i => (m[i + 1] + m[i]) / 2 * (h[i] - h[i + 1]));
            Assert.Equal(m[last - 1], m[^1], 1e-3 * m.Max());
            Assert.All(Enumerable.Range(last, StepsPerCycle / 2), i => Assert.Equal(-m[i], m[i + (StepsPerCycle / 2)], 1e-3 * m.Max()));
            Assert.True(area > 0);
            Assert.All(m, x => Assert.InRange(Math.Abs(x), 0, Saturation));
        }
    }

    [Fact]
    public void Harder_pinning_widens_the_loop()
    {
        var widths = new[] { 13e3, 27e3, 54e3 }.Select(k =>
        {
            var (h, m) = Loop(200e3, cycles: 3, pinning: k);
            return -Crossing(Enumerable.Range((2 * StepsPerCycle) + (StepsPerCycle / 4), StepsPerCycle / 2).ToArray(), m, h);
        }).ToArray();

        Assert.True(widths[0] < widths[1] && widths[1] < widths[2]);
    }

    [Fact]
    public void The_first_step_from_nothing_is_the_reversible_part_alone()
    {
        var medium = new Hysteresis(Pinning / Shape, Reversible, 0);

        var m = medium.Next(1e-6, Langevin.Of(1e-6));

        // c/3, Langevin's slope being ⅓; the irreversible part starts with zero slope.
        Assert.Equal(Reversible / 3, m / 1e-6, 1e-6);
    }

    [Fact]
    public void The_bias_takes_remanence_away_and_leaves_a_narrow_loop()
    {
        var medium = TapeMedium.Memory(384000);
        var area = 0.0;
        var (previousField, previous) = (0.0, 0.0);
        for (var n = 0; n < 2 * 384; n++)
        {
            var field = 2 * Math.Sin(2 * Math.PI * n / 384);
            var m = medium.Next(field, Langevin.Of(field));
            area += n < 384 ? 0 : (m + previous) / 2 * (previousField - field);
            (previousField, previous) = (field, m);
        }

        for (var n = 0; n < 384; n++)
        {
            previous = medium.Next(0, 0);
        }

        Assert.InRange(area, 1e-3, 0.2);
        Assert.InRange(Math.Abs(previous), 0, 1e-12);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void The_fast_form_gives_the_bits_of_the_definition_for_every_channel(int channels)
    {
        const int Phases = 8;
        const int Frames = 101;
        var fields = new PhaseBuffer(Phases, 1, channels);
        var result = new PhaseBuffer(Phases, 0, channels);
        var noise = Enumerable.Range(1, channels).Select(seed => Signals.Noise(Phases * Frames, seed: (ulong)seed, level: 5)).ToArray();
        var fast = new TapeMedium(384000, channels);
        for (var n = 0; n < Phases * Frames; n++)
        {
            for (var channel = 0; channel < channels; channel++)
            {
                fields.Row(n % Phases, Frames)[(n / Phases * channels) + channel] = noise[channel][n];
            }
        }

        fast.Bend(fields, result, Frames);

        for (var channel = 0; channel < channels; channel++)
        {
            var memory = TapeMedium.Memory(384000);
            var straightener = TapeMedium.Straightener(384000);
            for (var n = 0; n < Phases * Frames; n++)
            {
                var x = noise[channel][n];
                var (top, bottom) = Langevin.Fraction(x);
                Assert.Equal(straightener.Next(memory.Next(x, top, bottom)), result.Row(n % Phases, Frames)[(n / Phases * channels) + channel]);
            }
        }
    }

    // coth x − 1/x computed with 60 digits; where the error of the ratio is greatest, around the change of branch, and beyond.
    [Theory]
    [InlineData(1e-09, 3.3333333333333335e-10)]
    [InlineData(0.001, 3.3333331111111323e-4)]
    [InlineData(0.0625, 0.020827910003681342)]
    [InlineData(0.521484375, 0.17075612918491936)]
    [InlineData(1.0, 0.3130352854993313)]
    [InlineData(1.162109375, 0.35644627787270653)]
    [InlineData(1.7666015625, 0.49412174134679006)]
    [InlineData(2.3427734375, 0.59178274165621783)]
    [InlineData(2.8740234375, 0.65845413648349534)]
    [InlineData(3.0, 0.67163648998035584)]
    [InlineData(3.333984375, 0.70260377279763234)]
    [InlineData(3.6923828125, 0.73041421974591282)]
    [InlineData(3.9208984375, 0.74574264701321211)]
    [InlineData(3.9990234375, 0.75061141290338892)]
    [InlineData(4.0, 0.75067115040168249)]
    [InlineData(4.5, 0.77802462784967015)]
    [InlineData(6.0, 0.83334562183354314)]
    [InlineData(10.0, 0.90000000412230725)]
    [InlineData(20.0, 0.95000000000000001)]
    [InlineData(45.0, 0.97777777777777778)]
    public void Langevin_keeps_its_stated_error(double x, double expected)
    {
        var part = x < 4 ? SaturationTolerance.LangevinPart : SaturationTolerance.FarLangevinPart;

        Assert.Equal(expected, Langevin.Of(x), part * expected);
    }

    [Fact]
    public void Langevin_follows_its_formula_and_is_odd()
    {
        for (var x = 0.05; x < 60; x *= 1.01)
        {
            // coth x − 1/x by its own cancelling form: good to a few roundings over x².
            var expected = (1 / Math.Tanh(x)) - (1 / x);
            var part = x < 4 ? SaturationTolerance.LangevinPart : 0;
            Assert.Equal(expected, Langevin.Of(x), (part * expected) + (1e-15 * (4 + (2 / x))));
            Assert.Equal(-Langevin.Of(x), Langevin.Of(-x));
        }

        Assert.Equal(1e-9 / 3, Langevin.Of(1e-9), 1e-24);
        Assert.Equal(0, Langevin.Of(0.0));
        Assert.Equal(1 - 1e-9, Langevin.Of(1e9), 1e-15);
    }

    /// <summary>Drives the solver with an applied field H; the effective field H + αM takes the last magnetisation, extrapolated.</summary>
    private static (double[] Field, double[] Magnetisation) Loop(double peakField, int cycles, double pinning = Pinning)
    {
        var medium = new Hysteresis(pinning / Shape, Reversible, 0);
        var h = new double[cycles * StepsPerCycle];
        var m = new double[h.Length];
        var (last, before) = (0.0, 0.0);
        for (var n = 0; n < h.Length; n++)
        {
            h[n] = peakField * Math.Sin(2 * Math.PI * (n + 1) / StepsPerCycle);
            var effective = (h[n] + (Coupling * ((2 * last) - before))) / Shape;
            m[n] = Saturation * medium.Next(effective, Langevin.Of(effective));
            (last, before) = (m[n], last);
        }

        return (h, m);
    }

    /// <summary>Value of <paramref name="y"/> where <paramref name="x"/> crosses zero, by a straight line between neighbours.</summary>
    private static double Crossing(int[] range, double[] x, double[] y)
    {
        var i = range.First(n => x[n] >= 0 != x[n + 1] >= 0);
        return y[i] + ((y[i + 1] - y[i]) * x[i] / (x[i] - x[i + 1]));
    }
}
