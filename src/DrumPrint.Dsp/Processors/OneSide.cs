using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Lets a processor work on one part of a stereo signal; the other waits for it.</summary>
internal class OneSide : IProcessor
{
    private readonly IProcessor _processor;
    private readonly FractionalDelay _wait;
    private readonly bool _isMidSide;
    private readonly int _channel;

    private protected OneSide(IProcessor processor, string side)
    {
        _processor = processor;
        _wait = new FractionalDelay(processor.LatencyFrames);
        _isMidSide = Sides.IsMidSide(side);
        _channel = Sides.IsFirst(side) ? 0 : 1;
    }

    public int LatencyFrames => _processor.LatencyFrames;

    public long TailFrames => _processor.TailFrames;

    public long MemoryFrames => _processor.MemoryFrames;

    /// <summary>The processor itself, or one that works on the part of the signal that the settings name.</summary>
    /// <param name="on">Where they name it.</param>
    /// <param name="settings">The processor's settings.</param>
    /// <param name="context">The render.</param>
    /// <param name="make">Makes the processor for a signal.</param>
    /// <exception cref="SettingsException">The signal has no such part.</exception>
    public static IProcessor Of(ChoiceParameter on, Settings settings, ProcessorContext context, Func<Settings, ProcessorContext, IProcessor> make)
    {
        var side = settings[on];
        Sides.Check(on, side, context.Format);
        if (side == Sides.Both)
        {
            return make(settings, context);
        }

        var processor = make(settings, context with { Format = context.Format with { Channels = 1 } });
        return processor is IGainReducer reducer ? new OneSideReducer(processor, reducer, side) : new OneSide(processor, side);
    }

    public void Process(AudioBlock block, AudioBlock key)
    {
        if (_isMidSide)
        {
            MidSide.Part(block[0], block[1]);
        }

        _processor.Process(block.OneChannel(_channel), key);
        _wait.Process(block[1 - _channel]);
        if (_isMidSide)
        {
            MidSide.Join(block[0], block[1]);
        }
    }
}
