using System.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class DelayTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 48)]
    [InlineData(25, 1200)]
    public void A_whole_number_of_frames_moves_samples_and_nothing_else(double timeMs, int frames)
    {
        var input = Signals.Noise(3000);

        var output = Run.Through(Delay.Definition, Of(timeMs), [input])[0];

        Assert.All(output[..frames], x => Assert.Equal(0, x));
        Assert.Equal(input[..^frames], output[frames..]);
    }

    // Source: the ideal delay, exp(−jωD).
    [Theory]
    [InlineData(0.013)]
    [InlineData(0.1)]
    [InlineData(1.1)]
    [InlineData(3.337)]
    public void A_part_of_a_frame_is_right_to_a_hundred_and_forty_decibels(double timeMs)
    {
        var processor = Delay.Definition.Create(Of(timeMs), new ProcessorContext(new AudioFormat(Run.SampleRate, 1), 1000));
        var impulse = Run.Through(processor, [Signals.Impulse(1000)], 1)[0];
        var delay = (timeMs * Run.SampleRate / 1000) + processor.LatencyFrames;

        var worst = Enumerable.Range(0, 200).Max(i =>
        {
            var freq = 0.9 * Run.SampleRate / 2 * i / 199;
            var ideal = Complex.FromPolarCoordinates(1, -2 * Math.PI * freq / Run.SampleRate * delay);
            return (Spectrum.ResponseAt(impulse, freq) - ideal).Magnitude;
        });

        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, FilterTolerance.FractionalDelayDb);
    }

    [Fact]
    public void A_long_delay_needs_no_latency_and_a_short_one_says_how_much()
    {
        var context = new ProcessorContext(new AudioFormat(Run.SampleRate, 1), 1000);

        Assert.Equal(0, Delay.Definition.Create(Of(5.01), context).LatencyFrames);
        Assert.Equal(0, Delay.Definition.Create(Of(1), context).LatencyFrames);
        Assert.InRange(Delay.Definition.Create(Of(0.01), context).LatencyFrames, 1, 64);
    }

    private static Settings Of(double timeMs) => Settings.Of(Delay.Definition.Parameters, (Delay.Time, timeMs));
}
