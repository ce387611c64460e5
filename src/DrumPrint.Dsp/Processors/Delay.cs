using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Delays by any time, also by parts of a frame.</summary>
/// <remarks>A whole number of frames only moves the samples. Anything else goes through <see cref="FractionalDelay"/>.</remarks>
public sealed class Delay : IProcessor
{
    public static readonly NumberParameter Time = new("time_ms", Unit.Milliseconds, 0, 2000, 0, "How much later.");

    private readonly FractionalDelay[] _channels;

    private Delay(double frames, int channels) => _channels = [.. Enumerable.Range(0, channels).Select(_ => new FractionalDelay(frames))];

    public static ProcessorDefinition Definition { get; } = new(
        "delay", 1, "Makes everything later.", [Time], static (settings, context) => new Delay(settings[Time] * context.Format.SampleRate / 1000, context.Format.Channels));

    /// <summary>The same for a delay in frames, whole or not, 0 or more.</summary>
    public static IProcessor OfFrames(double frames, int channels) => new Delay(frames, channels);

    public int LatencyFrames => _channels[0].LatencyFrames;

    public long TailFrames => _channels[0].TailFrames;

    /// <summary>It hears no further back than its taps reach.</summary>
    public bool ForgetsWholly => true;

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var channel = 0; channel < _channels.Length; channel++)
        {
            _channels[channel].Process(block[channel]);
        }
    }
}
