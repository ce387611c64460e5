using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;

namespace DrumPrint.Store;

/// <summary>What a processor did to the gain over a render: as it runs, or as an earlier run kept it.</summary>
internal sealed class GainTrace
{
    private readonly IGainReducer? _reducer;
    private readonly ReadOnlyMemory<float> _kept;
    private readonly int _windowFrames;

    /// <summary>A trace that was kept.</summary>
    public GainTrace(string processor, long latency, int windowFrames, ReadOnlyMemory<float> lowestGain)
    {
        Processor = processor;
        Latency = latency;
        _windowFrames = windowFrames;
        _kept = lowestGain;
    }

    private GainTrace(string processor, long latency, IGainReducer reducer)
    {
        Processor = processor;
        Latency = latency;
        _reducer = reducer;
        CurveLate = latency - ((reducer as IProcessor)?.LatencyFrames ?? 0);
    }

    /// <summary>Its key in the chain.</summary>
    public string Processor { get; }

    /// <summary>Frames by which it lags song time.</summary>
    public long Latency { get; }

    /// <summary>Frames by which its first window lags the start of the song: a curve leaves out its processor's own latency. Known of one that runs.</summary>
    public long CurveLate { get; }

    /// <summary>Frame of its processor's output, latency included, with which its first window begins: 0 but for one that began in mid-song.</summary>
    public long FirstFrame { get; set; }

    public int WindowFrames => _reducer?.GainCurve.WindowFrames ?? _windowFrames;

    /// <summary>The lowest gain of each window; whole once the render is over.</summary>
    public ReadOnlySpan<float> LowestGain => _reducer is null ? _kept.Span : _reducer.GainCurve.LowestGain;

    /// <summary>One of a processor that moves the gain, or one for each such processor that it runs.</summary>
    /// <param name="key">Its key in the chain.</param>
    /// <param name="processor">The processor.</param>
    /// <param name="latency">Frames by which its output lags song time.</param>
    public static IEnumerable<GainTrace> Of(string key, IProcessor processor, long latency) => processor switch
    {
        IGainReducer reducer => [new GainTrace(key, latency, reducer)],
        IGainReducers many => many.Reducers.Select(r => new GainTrace($"{key}, {r.Name}", latency - processor.LatencyFrames + r.LatencyFrames, r.Reducer)),
        _ => [],
    };

    /// <summary>The windows that end within so many frames of song time.</summary>
    public ReadOnlySpan<float> Until(long frames)
    {
        var gains = LowestGain;
        return gains[..(int)Math.Clamp((frames + Latency) / WindowFrames, 0, gains.Length)];
    }

    /// <summary>The windows that begin and end within a stretch of song time. One from the start of the song has the latency's too.</summary>
    /// <param name="from">First frame of the stretch.</param>
    /// <param name="to">One past the last.</param>
    public ReadOnlySpan<float> Within(long from, long to)
    {
        var gains = LowestGain;
        var last = (int)Math.Clamp((to + Latency - FirstFrame) / WindowFrames, 0, gains.Length);
        var first = from == 0 ? 0 : (int)Math.Clamp((from + Latency - FirstFrame + WindowFrames - 1) / WindowFrames, 0, last);
        return gains[first..last];
    }
}
