using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Tests.Toolkit;

/// <summary>The examples of the signal layer's README, as they stand there; a test compares the lines.</summary>
internal static class Example
{
    public static double[][] EqualiserAndCompressor(double[][] drums)
    {
        var tone = Eq.Definition.With(Eq.Bands.To(
            Eq.HighPass.With(Eq.HighPass.Freq.To(40)),
            Eq.Bell.With(Eq.Bell.Freq.To(350), Eq.Bell.Gain.To(-4), Eq.Bell.Q.To(1.4))));
        var squash = Compress.Definition.With(
            Compress.Threshold.To(-24),
            Compress.Ratio.To(4),
            Compress.Attack.To(15),
            Compress.Release.To(90));
        double[][] printed = WholeSignal.Through(drums, 48000, tone, squash);
        return printed;
    }

    public static ProcessorStep ListeningToAnother(double[][] kick)
    {
        var ducked = Duck.Definition.With(Duck.Amount.To(6)) with { Key = kick };
        return ducked;
    }

    public static void BlockByBlock(ProcessorStep squash, double[][] buffers, int frames, int start, int length)
    {
        var context = new ProcessorContext(new AudioFormat(48000, 2), frames);
        IProcessor processor = squash.Definition.Create(squash.Settings, context);
        processor.Process(new AudioBlock(buffers, start, length), AudioBlock.None);
    }
}
