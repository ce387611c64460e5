using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Runs a processor over a whole signal.</summary>
internal static class Run
{
    public const int SampleRate = 48000;

    [ThreadStatic]
    private static DesignMemory? _designs;

    /// <summary>Filters of this thread's runs: as in a print, what is alike is designed once.</summary>
    public static DesignMemory Designs => _designs ??= new DesignMemory();

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
        var context = new ProcessorContext(new AudioFormat(sampleRate, input.Length), frames, key?.Length ?? 0, impulses ?? new Dictionary<string, Impulse>()) { Designs = Designs };
        var outputs = definition.OutputChannels(settings, context);
        return Through(definition.Create(settings, context), input, outputs, blockFrames, extraFrames, key);
    }

    /// <summary>The same for a processor already made.</summary>
    public static double[][] Through(IProcessor processor, double[][] input, int outputs, int blockFrames = 480, int extraFrames = 0, double[][]? key = null)
    {
        var frames = input[0].Length + extraFrames;
        var buffer = WholeSignal.Padded([.. input, .. Enumerable.Repeat(Array.Empty<double>(), Math.Max(0, outputs - input.Length))], frames);
        WholeSignal.Process(processor, buffer, key is null ? null : WholeSignal.Padded(key, frames), blockFrames);
        return buffer[..outputs];
    }
}
