using DrumPrint.Dsp.Spectral;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Spectral;

/// <summary>An exponential decay states its own decay time; ISO 3382-1:2009 says how it is measured (T30).</summary>
public sealed class DecayTimeTests
{
    [Theory]
    [InlineData(0.3)]
    [InlineData(1.0)]
    [InlineData(2.0)]
    public void Exponential_decay_measures_its_own_time(double seconds)
    {
        var h = Exponential((int)(1.5 * seconds * Run.SampleRate), seconds);

        Assert.Equal(seconds, DecayTime.T30([h], Run.SampleRate)!.Value, SpectralTolerance.DecayTime * seconds);
    }

    [Fact]
    public void Decaying_noise_measures_its_time_within_the_just_noticeable_5_percent()
    {
        var noise = Signals.Noise(96000, 3);
        double[] h = [.. Exponential(96000, 1.2).Select((x, n) => x * noise[n])];

        Assert.InRange(DecayTime.T30([h], Run.SampleRate)!.Value, 1.2 / 1.05, 1.2 * 1.05);
    }

    [Fact]
    public void Silence_before_the_first_sound_does_not_count()
    {
        var h = Exponential(48000, 0.5);
        double[] late = [.. new double[20000], .. h];

        Assert.Equal(DecayTime.T30([h], Run.SampleRate)!.Value, DecayTime.T30([late], Run.SampleRate)!.Value, Tolerance.Rounding);
        Assert.Equal(20000, DecayTime.Onset([late]));
    }

    [Fact]
    public void Channels_add_by_energy()
    {
        var (shorter, longer) = (Exponential(96000, 0.4), Exponential(96000, 1.0));
        double[] together = [.. shorter.Zip(longer, (a, b) => Math.Sqrt((a * a) + (b * b)))];

        Assert.Equal(DecayTime.T30([together], Run.SampleRate)!.Value, DecayTime.T30([shorter, longer], Run.SampleRate)!.Value, 1e-9);
    }

    [Fact]
    public void Silence_and_a_single_sample_have_no_decay_time()
    {
        Assert.Null(DecayTime.T30([new double[1000]], Run.SampleRate));
        Assert.Null(DecayTime.T30([Signals.Impulse(1000)], Run.SampleRate));
    }

    private static double[] Exponential(int frames, double seconds) =>
        [.. Enumerable.Range(0, frames).Select(n => Math.Pow(10, -3.0 * n / (seconds * Run.SampleRate)))];
}
