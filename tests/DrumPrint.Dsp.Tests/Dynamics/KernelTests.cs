using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class KernelTests
{
    [Fact]
    public void Logarithm_stays_within_its_stated_error_from_silence_to_far_over_full_scale()
    {
        var amplitudes = Enumerable.Range(0, 32000).Select(n => Math.Pow(10, (n - 24000) / 1600.0)).ToArray();
        var powers = amplitudes.ToArray();
        var levels = amplitudes.ToArray();

        DecibelKernel.AmplitudeToDecibels(levels);
        DecibelKernel.PowerToDecibels(powers);

        for (var n = 0; n < amplitudes.Length; n++)
        {
            Assert.Equal(20 * Math.Log10(amplitudes[n]), levels[n], DynamicsTolerance.KernelDb);
            Assert.Equal(10 * Math.Log10(amplitudes[n]), powers[n], DynamicsTolerance.KernelDb);
        }
    }

    [Fact]
    public void Silence_reads_as_a_level_no_threshold_reaches()
    {
        var levels = new double[8];

        DecibelKernel.AmplitudeToDecibels(levels);

        Assert.All(levels, level => Assert.Equal(-600, level, 1e-9));
    }

    [Fact]
    public void Exponential_stays_within_its_stated_error()
    {
        var reductions = Enumerable.Range(0, 32000).Select(n => n / 160.0).ToArray();
        var gains = reductions.ToArray();

        DecibelKernel.ReductionToGain(gains);

        for (var n = 0; n < gains.Length; n++)
        {
            var expected = Math.Exp(-reductions[n] * Math.Log(10) / 20);
            Assert.Equal(1, gains[n] / expected, DynamicsTolerance.KernelGain);
        }

        Assert.Equal(1, gains[0]);
    }
}
