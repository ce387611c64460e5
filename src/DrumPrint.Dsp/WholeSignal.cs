namespace DrumPrint.Dsp;

/// <summary>Runs processors over whole signals that lie in arrays.</summary>
/// <remarks>For a signal that comes piece by piece, make the processor with <see cref="ProcessorDefinition.Create"/> and hand it the blocks
/// yourself: the bits are the same.</remarks>
public static class WholeSignal
{
    private const int BlockFrames = 4096;

    /// <summary>Runs a signal through processors, one after another.</summary>
    /// <param name="input">One array for each channel, all of one length; not written to.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="steps">The processors, in order.</param>
    /// <returns>One array for each channel, as long as the input and every tail. Each latency is taken out, so frame 0 is frame 0
    /// of the input.</returns>
    /// <exception cref="ArgumentException">The channels are of different lengths, or there are neither one nor two.</exception>
    /// <exception cref="Parameters.SettingsException">Settings do not go together or with the signal.</exception>
    public static double[][] Through(double[][] input, int sampleRate, params IReadOnlyList<ProcessorStep> steps) =>
        Through(input, sampleRate, new Dictionary<string, Impulse>(), steps);

    /// <param name="input">One array for each channel, all of one length; not written to.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="impulses">Impulse responses by name, at <paramref name="sampleRate"/>.</param>
    /// <param name="steps">The processors, in order.</param>
    /// <inheritdoc cref="Through(double[][], int, IReadOnlyList{ProcessorStep})"/>
    public static double[][] Through(double[][] input, int sampleRate, IReadOnlyDictionary<string, Impulse> impulses, params IReadOnlyList<ProcessorStep> steps)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(impulses);
        ArgumentNullException.ThrowIfNull(steps);
        RequireOneLength(input, nameof(input));
        if (input.Length > 2)
        {
            throw new ArgumentException($"A signal has one or two channels; this one has {input.Length}.", nameof(input));
        }

        var signal = Array.ConvertAll(input, channel => (double[])channel.Clone());
        foreach (var step in steps)
        {
            signal = Through(signal, sampleRate, impulses, step);
        }

        return signal;
    }

    /// <summary>Runs one processor over arrays in place, block after block; latency stays in.</summary>
    /// <param name="processor">Made for as many channels as the signal has.</param>
    /// <param name="channels">Input and output: as many arrays as the larger of both needs, all of one length.</param>
    /// <param name="key">What the detector listens to, of the same length; null when it listens to the input.</param>
    /// <param name="blockFrames">Length of the blocks; it never changes a bit.</param>
    public static void Process(IProcessor processor, double[][] channels, double[][]? key = null, int blockFrames = BlockFrames)
    {
        ArgumentNullException.ThrowIfNull(processor);
        ArgumentNullException.ThrowIfNull(channels);
        ArgumentOutOfRangeException.ThrowIfLessThan(blockFrames, 1);
        RequireOneLength(channels, nameof(channels));
        var frames = channels[0].Length;
        for (var start = 0; start < frames; start += blockFrames)
        {
            var length = Math.Min(blockFrames, frames - start);
            processor.Process(new AudioBlock(channels, start, length), key is null ? AudioBlock.None : new AudioBlock(key, start, length));
        }
    }

    /// <summary>A copy of other length, with silence after what there is.</summary>
    /// <param name="channels">One array for each channel.</param>
    /// <param name="frames">Length of the copy.</param>
    public static double[][] Padded(double[][] channels, int frames)
    {
        ArgumentNullException.ThrowIfNull(channels);
        return Array.ConvertAll(channels, channel =>
        {
            var padded = new double[frames];
            channel.AsSpan(0, Math.Min(frames, channel.Length)).CopyTo(padded);
            return padded;
        });
    }

    private static double[][] Through(double[][] input, int sampleRate, IReadOnlyDictionary<string, Impulse> impulses, ProcessorStep step)
    {
        var context = new ProcessorContext(new AudioFormat(sampleRate, input.Length), input[0].Length, step.Key?.Length ?? 0, impulses);
        var processor = step.Definition.Create(step.Settings, context);
        var outputs = step.Definition.OutputChannels(step.Settings, context);
        var latency = processor.LatencyFrames;
        var frames = checked((int)(input[0].Length + latency + processor.TailFrames));
        var signal = Padded([.. input, .. Enumerable.Repeat(Array.Empty<double>(), Math.Max(0, outputs - input.Length))], frames);
        Process(processor, signal, step.Key is null ? null : Padded(step.Key, frames));
        return [.. signal.Take(outputs).Select(channel => channel[latency..])];
    }

    private static void RequireOneLength(double[][] channels, string name)
    {
        if (channels.Length == 0 || channels.Any(c => c.Length != channels[0].Length))
        {
            throw new ArgumentException("A signal is one array for each channel, all of the same length.", name);
        }
    }
}
