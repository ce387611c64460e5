using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Saturation;
using DrumPrint.Dsp.Tests.Support;
using MathNet.Numerics.Integration;
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

        var m = medium.Next(1e-6);

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
            var m = medium.Next(field);
            area += n < 384 ? 0 : (m + previous) / 2 * (previousField - field);
            (previousField, previous) = (field, m);
        }

        for (var n = 0; n < 384; n++)
        {
            previous = medium.Next(n < 8 ? previous * (7 - n) / 8 : 0);
        }

        Assert.InRange(area, 1e-3, 0.2);
        Assert.InRange(Math.Abs(previous), 0, 1e-12);
    }

    [Theory]
    [InlineData(1, 8, 0.1)]
    [InlineData(1, 2, 5)]
    [InlineData(2, 8, 1)]
    [InlineData(2, 8, 30)]
    [InlineData(3, 4, 8)]
    [InlineData(5, 16, 3)]
    public void Any_number_of_lanes_gives_the_bits_of_one_for_every_channel(int channels, int phases, double level)
    {
        var noise = Enumerable.Range(1, channels).Select(seed => Signals.Noise(phases * 205, seed: (ulong)seed, level: level)).ToArray();
        var alone = noise.Select(x => Bent([x], phases, (medium, fields, result, frames) => medium.Bend<Lane1>(fields, result, frames))[0]).ToArray();

        Assert.Equal(alone, Bent(noise, phases, (medium, fields, result, frames) => medium.Bend<Lane1>(fields, result, frames)));
        Assert.Equal(alone, Bent(noise, phases, (medium, fields, result, frames) => medium.Bend<Lane2>(fields, result, frames)));
        Assert.Equal(alone, Bent(noise, phases, (medium, fields, result, frames) => medium.Bend<Lane4>(fields, result, frames)));
        Assert.Equal(alone, Bent(noise, phases, (medium, fields, result, frames) => medium.Bend<Lane8>(fields, result, frames)));
        Assert.Equal(alone, Bent(noise, phases, (medium, fields, result, frames) => medium.Bend(fields, result, frames)));
    }

    // The published equation with the bias on top, by explicit steps a thousand times as short, on the sine itself. Its mean
    // under the triangle is added up.
    [Theory]
    [InlineData(1000, 2, SaturationTolerance.MediumPart)]
    [InlineData(10000, 2, SaturationTolerance.MediumPart)]
    [InlineData(5000, 12, SaturationTolerance.HotMediumPart)]
    public void The_medium_gives_the_means_of_the_equations_own_solution(double freqHz, double peak, double part)
    {
        const int Rate = 384000;
        const int Fine = 1000;
        var count = 16 * (int)(Rate / freqHz / 8);
        var means = new double[count + 2];
        double kept = 0;
        for (var n = 0; n < count * Fine; n++)
        {
            double At(int step) => peak * Math.Sin(2 * Math.PI * freqHz * step / Fine / Rate);
            var (field, move) = (At(n), At(n + 1) - At(n));
            var curve = Math.Abs(field) < 1e-3 ? field / 3 : (1 / Math.Tanh(field)) - (1 / field);
            var gap = curve - kept;
            kept += gap * ((gap * move > 0 ? Math.Abs(move) / (Pinning / Shape) : 0) + (1 / (5e-6 * Rate * Fine)));
            var place = (double)(n % Fine) / Fine;
            var value = (Reversible * curve) + ((1 - Reversible) * kept);
            means[n / Fine] += value * (1 - place) / Fine;
            means[(n / Fine) + 1] += value * place / Fine;
        }

        var input = Enumerable.Range(0, count + 2).Select(n => peak * Math.Sin(2 * Math.PI * freqHz * n / Rate)).ToArray();
        var ours = Bent([[.. input, .. new double[8 - (input.Length % 8)]]], 8, (medium, fields, result, frames) => medium.Bend(fields, result, frames))[0];

        var worst = Enumerable.Range(count / 2, (count / 2) - 2).Max(n => Math.Abs(ours[n + 2] - means[n]));
        output.WriteLine($"{freqHz} Hz, {peak}: {Spectrum.Decibels(worst / means.Max()):0.0} dB");
        Assert.InRange(worst, 0, part * means.Max());
    }

    [Theory]
    [InlineData(-0.2, 0.29)]
    [InlineData(3.9, 4.4)]
    [InlineData(9, 9.5)]
    [InlineData(0.1, 0.7)]
    [InlineData(-3, 2)]
    [InlineData(-7, 9)]
    [InlineData(6, 30)]
    [InlineData(-0.5, -60)]
    public void The_curves_mean_and_tilt_are_its_integrals_over_the_way(double a, double b)
    {
        double Curve(double x) => Math.Abs(x) < 1e-3 ? x / 3 : (1 / Math.Tanh(x)) - (1 / x);
        double Slope(double x) => 1 - (Curve(x) * Curve(x)) - (2 * Curve(x) / x);
        var mean = Enumerable.Range(0, 64).Sum(i => GaussLegendreRule.Integrate(t => Curve(a + ((b - a) * t)), i / 64.0, (i + 1) / 64.0, 16));
        var tilt = Enumerable.Range(0, 64).Sum(i => GaussLegendreRule.Integrate(t => (t - 0.5) * Curve(a + ((b - a) * t)), i / 64.0, (i + 1) / 64.0, 16));
        (Lane1 from, Lane1 to, Lane1 even) = (a, b, 0);

        LangevinWay.OfShort<Lane1>(b - a, 0, Curve(a), Curve(b), Slope(a), Slope(b), out var ourMean, out var ourTilt);
        Langevin.Integrate(in from, out var atA);
        Langevin.Integrate(in to, out var atB);
        LangevinWay.OfLong(in from, in to, in even, in atA, in atB, ref ourMean, ref ourTilt);

        var tolerance = Math.Abs(b - a) <= LangevinWay.Short ? SaturationTolerance.ShortWay : SaturationTolerance.LongWay;
        Assert.Equal(mean, ourMean.Value, tolerance);
        Assert.Equal(tilt, ourTilt.Value, tolerance);
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
        var part = x <= 4 ? SaturationTolerance.LangevinPart : SaturationTolerance.FarLangevinPart;

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

    private static double[][] Bent(double[][] channels, int phases, Action<TapeMedium, PhaseBuffer, PhaseBuffer, int> bend)
    {
        var frames = channels[0].Length / phases;
        var medium = new TapeMedium(48000.0 * phases, phases, channels.Length);
        var fields = new PhaseBuffer(phases, Oversampler.CoreHistory, channels.Length);
        var result = new PhaseBuffer(phases, 0, channels.Length);
        var bent = channels.Select(c => new double[c.Length]).ToArray();
        for (var start = 0; start < frames; start += 101)
        {
            var part = Math.Min(101, frames - start);
            Each((n, channel, row, i) => fields.Row(row, part)[i] = channels[channel][n]);
            bend(medium, fields, result, part);
            fields.Advance(part);
            Each((n, channel, row, i) => bent[channel][n] = result.Row(row, part)[i]);

            void Each(Action<int, int, int, int> act)
            {
                for (var n = 0; n < phases * part; n++)
                {
                    for (var channel = 0; channel < channels.Length; channel++)
                    {
                        act((start * phases) + n, channel, n % phases, (n / phases * channels.Length) + channel);
                    }
                }
            }
        }

        return bent;
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
            m[n] = Saturation * medium.Next(effective);
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
