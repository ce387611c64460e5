using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class GainTests
{
    [Theory]
    [InlineData(-120)]
    [InlineData(-6)]
    [InlineData(0)]
    [InlineData(60)]
    public void Every_sample_is_scaled_by_the_level(double level)
    {
        var input = Signals.Noise(100);

        var output = Run.Through(Gain.Definition, Settings.Of(Gain.Definition.Parameters, (Gain.Level, level)), [input, input]);

        var factor = Math.Pow(10, level / 20);
        for (var i = 0; i < input.Length; i++)
        {
            Assert.Equal(input[i] * factor, output[0][i], Tolerance.Rounding * factor);
            Assert.Equal(output[0][i], output[1][i]);
        }
    }
}
