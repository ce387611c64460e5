using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>One band of <see cref="Bands"/> at work: its processors, its level, and the wait for the slowest band.</summary>
internal sealed class BandLine
{
    private readonly List<IProcessor> _processors = [];
    private readonly List<InnerReducer> _reducers = [];
    private readonly double _gain = 1;
    private FractionalDelay[] _waits = [];

    /// <param name="name">Such as <c>low</c>.</param>
    /// <param name="parts">What is to happen in it, one after another.</param>
    /// <param name="context">The render of one band.</param>
    /// <param name="late">Frames by which the band lags already.</param>
    /// <exception cref="SettingsException">A processor cannot be made.</exception>
    public BandLine(string name, IReadOnlyList<Item> parts, ProcessorContext context, int late)
    {
        foreach (var part in parts)
        {
            _gain *= Decibels.ToGain(part.Settings[Bands.Level]);
            foreach (var item in part.Settings[Bands.Through].Where(i => !i.Settings[ProcessorKind.Off]))
            {
                Add(name, item, context, late);
            }
        }
    }

    /// <summary>Frames by which its processors lag.</summary>
    public int LatencyFrames { get; private set; }

    /// <summary>Frames its processors ring on.</summary>
    public long TailFrames { get; private set; }

    /// <summary>How long its processors remember.</summary>
    public long MemoryFrames { get; private set; }

    /// <summary>Frames of the steps in which they work together.</summary>
    public int StepFrames { get; private set; } = 1;

    /// <summary>Those whose gain moves.</summary>
    public IReadOnlyList<InnerReducer> Reducers => _reducers;

    /// <summary>Has it wait until it lags by so many frames.</summary>
    public void WaitFor(int latencyFrames, int channels) =>
        _waits = latencyFrames == LatencyFrames ? [] : [.. Enumerable.Range(0, channels).Select(_ => new FractionalDelay(latencyFrames - LatencyFrames))];

    /// <summary>Works on the band and adds it to a sum.</summary>
    public void AddTo(AudioBlock sum, AudioBlock band)
    {
        foreach (var processor in _processors)
        {
            processor.Process(band, AudioBlock.None);
        }

        for (var channel = 0; channel < band.Channels; channel++)
        {
            if (_waits.Length > 0)
            {
                _waits[channel].Process(band[channel]);
            }

            Blend.Add(band[channel], _gain, sum[channel]);
        }
    }

    /// <summary>The shortest step that is a whole number of either.</summary>
    public static int Together(int steps, int others)
    {
        var (a, b) = (steps, others);
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return steps / a * others;
    }

    private void Add(string name, Item item, ProcessorContext context, int late)
    {
        var definition = ((ProcessorKind)item.Kind).Definition;
        IProcessor processor;
        try
        {
            processor = definition.Create(item.Settings, context);
        }
        catch (SettingsException e)
        {
            throw new SettingsException(Bands.In, $"{name}, {definition.Key}: {e.Message}");
        }

        _processors.Add(processor);
        LatencyFrames += processor.LatencyFrames;
        TailFrames += processor.TailFrames;
        MemoryFrames += processor.MemoryFrames;
        StepFrames = Together(StepFrames, processor.StepFrames);
        if (processor is IGainReducer reducer)
        {
            _reducers.Add(new InnerReducer($"{name.Replace('_', ' ')} {definition.Key}", reducer, late + LatencyFrames));
        }
    }
}
