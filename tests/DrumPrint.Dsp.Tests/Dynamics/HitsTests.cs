using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class HitsTests
{
    // The gain moves in the look-ahead, so it is compared away from the hit's first frames.
    private const int LookAhead = 72;

    [Theory]
    [InlineData(9, 0)]
    [InlineData(-12, 0)]
    [InlineData(0, 8)]
    [InlineData(0, -15)]
    [InlineData(6, -6)]
    public void A_hit_thirty_decibels_softer_gets_the_same_change_within_a_fifth_of_a_decibel(double begin, double body)
    {
        var hit = Hit(12000, 200, 1200);
        double[] input = [.. new double[2000], .. hit, .. hit.Select(x => x * Steady.Amplitude(-30)), .. hit];

        var gain = GainDb(Of((Hits.Begin, begin), (Hits.Body, body)), input);

        for (var n = 0; n < 9000; n += 7)
        {
            Assert.Equal(gain[2000 + n], gain[14000 + n], 0.2);
            Assert.Equal(gain[2000 + n], gain[26000 + n], 0.2);
        }

        Assert.Contains(gain, g => Math.Abs(g) > 0.9 * Math.Max(Math.Abs(begin), Math.Abs(body)));
    }

    [Fact]
    public void Nothing_asked_for_is_the_same_bits()
    {
        var input = Signals.Hits(9000, 1500, 300, seed: 41);

        var output = Steady.Through(Hits.Definition, Of(), [input, input]);

        Assert.All(output, side => Assert.Equal(input, side));
    }

    [Theory]
    [InlineData(50)]
    [InlineData(187.3)]
    [InlineData(1000)]
    [InlineData(5000)]
    public void A_steady_sine_is_not_bent(double freqHz)
    {
        // A whole number of periods of every one of the tones.
        var input = Signals.Sine(96000 + 480000 + 2400, freqHz, 0.5, 0.3);

        var output = Steady.Through(Hits.Definition, Of((Hits.Begin, 12.0), (Hits.Body, 12.0)), [input])[0].AsSpan(96000, 480000).ToArray();

        var fundamental = Spectrum.AmplitudeAt(output, freqHz);
        var rest = output.Zip(input[96000..], (y, x) => y - (x * fundamental / 0.5)).Max(Math.Abs);
        Assert.InRange(Spectrum.Decibels(rest / fundamental), double.NegativeInfinity, -100);
    }

    [Fact]
    public void The_change_follows_the_documented_lines()
    {
        // Nothing, then standing: the beginning's change falls to half in its time; then off: the body's change rises.
        var input = Steady.Steps((4800, -80), (24000, -10), (24000, -60));
        var begin = GainDb(Of((Hits.Begin, 12.0), (Hits.BeginTime, 25.0)), input);
        var body = GainDb(Of((Hits.Body, 12.0), (Hits.BodyTime, 300.0)), input);

        Assert.Equal(12, begin[4800 + 8], 0.4);
        Assert.Equal(6, begin[4800 + Steady.Frames(25) - LookAhead], 0.6);
        for (var ms = 5; ms < 200; ms += 5)
        {
            // Read in the middle of what rounds it off.
            var t = ms + (LookAhead / 2 / 48.0);
            var rest = 1 - Math.Sqrt(Steady.Amplitude(-12));
            var tau = -25 / Math.Log(rest / (1 - Steady.Amplitude(-12)));
            var expected = -Spectrum.Decibels(1 - ((1 - Steady.Amplitude(-12)) * Math.Exp(-t / tau)));
            Assert.Equal(expected, begin[4800 + Steady.Frames(ms)], 0.25);
        }

        Assert.Equal(0, body[28000], 0.01);
        Assert.Equal(12, body[28800 + Steady.Frames(60)], 0.1);
        Assert.InRange(body[^1], 0, 12);
    }

    [Fact]
    public void A_key_says_where_the_hits_are()
    {
        var key = Hit(12000, 150, 1000);
        double[] input = [.. Enumerable.Repeat(0.3, key.Length + 4000)];

        var gain = Steady.GainDb(Hits.Definition, Of((Hits.Begin, 10.0)), input, [.. new double[4000], .. key]);

        Assert.All(gain[500..(4000 - LookAhead - 60)], g => Assert.Equal(0, g, 1e-9));
        Assert.InRange(gain[4000 + 40], 8, 10.01);
    }

    [Fact]
    public void The_gain_is_there_when_the_hit_comes_and_takes_its_time_before()
    {
        var input = Steady.Steps((48000, -80), (9600, -10));

        var gain = GainDb(Of((Hits.Begin, 12.0), (Hits.Ahead, 5.0)), input);

        Assert.Equal(0, gain[48000 - 240 - 16], 0.2);
        Assert.InRange(gain[48000 - 120], 1, 11);
        Assert.InRange(gain[48000 + 4], 10.5, 12);
        Assert.All(Enumerable.Range(47000, 2000), n => Assert.InRange(Math.Abs(gain[n + 1] - gain[n]), 0, 0.25));
    }

    private static double[] Hit(int frames, double freqHz, double decayFrames) =>
        [.. Enumerable.Range(0, frames).Select(n => 0.8 * Math.Exp(-n / decayFrames) * Math.Cos(2 * Math.PI * freqHz * n / Run.SampleRate))];

    // Read on a steady layer, which shows the gain itself.
    private static double[] GainDb(Settings settings, double[] key) =>
        Steady.GainDb(Hits.Definition, settings, [.. Enumerable.Repeat(1.0, key.Length)], key);

    private static Settings Of(params (Parameter, object)[] values) => Settings.Of(Hits.Definition.Parameters, values);
}
