using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Runs a processor over a whole signal.</summary>
internal static class Run
{
    public const int SampleRate = 48000;

    /// <summary>Processes a planar signal and returns the output, as long as the input plus <paramref name="extraFrames"/>
    /// of silence; latency is left in.</summary>
    public static double[][] Through(
        ProcessorDefinition definition,
        Settings settings,
        double[][] input,
        int blockFrames = 480,
        int extraFrames = 0,
        double[][]? key = null,
        int sampleRate = SampleRate,
        IReadOnlyDictionary<string, Impulse>? impulses = null)
    {
        var frames = input[0].Length + extraFrames;
        var context = new ProcessorContext(new AudioFormat(sampleRate, input.Length), frames, key?.Length ?? 0, impulses ?? new Dictionary<string, Impulse>());
        var outputs = definition.OutputChannels(settings, context);
        return Through(definition.Create(settings, context), input, outputs, blockFrames, extraFrames, key);
    }

    /// <summary>The same for a processor already made.</summary>
    public static double[][] Through(IProcessor processor, double[][] input, int outputs, int blockFrames = 480, int extraFrames = 0, double[][]? key = null)
    {
        var frames = input[0].Length + extraFrames;
        var buffer = new double[Math.Max(input.Length, outputs)][];
        for (var c = 0; c < buffer.Length; c++)
        {
            buffer[c] = new double[frames];
            if (c < input.Length)
            {
                input[c].CopyTo(buffer[c], 0);
            }
        }

        var keyBuffer = key is null ? [] : Array.ConvertAll(key, k => Padded(k, frames));
        for (var start = 0; start < frames; start += blockFrames)
        {
            var length = Math.Min(blockFrames, frames - start);
            processor.Process(new AudioBlock(buffer, start, length), key is null ? AudioBlock.None : new AudioBlock(keyBuffer, start, length));
        }

        return buffer[..outputs];
    }

    private static double[] Padded(double[] samples, int frames)
    {
        var padded = new double[frames];
        samples.AsSpan(0, Math.Min(frames, samples.Length)).CopyTo(padded);
        return padded;
    }
}
