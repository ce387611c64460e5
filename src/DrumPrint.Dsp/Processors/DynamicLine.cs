using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Dsp.Processors;

/// <summary>One band of a <see cref="DynamicEq"/> at work: the part of the sound around its frequency, through a compressor of its own.</summary>
internal sealed class DynamicLine
{
    private readonly ChannelCascade _part;
    private readonly ChannelCascade? _keyPart;
    private readonly IProcessor _compress;
    private readonly FractionalDelay[] _waits;
    private readonly double[][] _band;
    private readonly double[][] _key;

    // Bands before this one hold the sound back, so its key waits as long.
    private readonly FractionalDelay[] _lateKey;

    /// <param name="band">The band.</param>
    /// <param name="context">The render.</param>
    /// <param name="late">Frames by which the sound lags already.</param>
    /// <param name="stretchFrames">Longest stretch.</param>
    public DynamicLine(Item band, ProcessorContext context, int late, int stretchFrames)
    {
        var kind = (DynamicBand)band.Kind;
        var (values, rate) = (band.Settings, context.Format.SampleRate);
        BiquadDesign.CheckFrequency(values[kind.Freq], rate, kind.Freq);
        var section = kind == DynamicEq.Bell ? PartDesign.Around(values[kind.Freq], values[kind.Q!], rate)
            : kind == DynamicEq.LowShelf ? PartDesign.Below(values[kind.Freq], rate)
            : PartDesign.Above(values[kind.Freq], rate);
        _part = new ChannelCascade([section], context.Format.Channels);
        _keyPart = context.KeyChannels == 0 ? null : new ChannelCascade([section], context.KeyChannels);
        var settings = Compress.Definition.With(
            Compress.Threshold.To(values[kind.Threshold]),
            Compress.Ratio.To(values[kind.Ratio]),
            Compress.Knee.To(values[kind.Knee]),
            Compress.Attack.To(values[kind.Attack]),
            Compress.Release.To(values[kind.Release])).Settings;
        _compress = Compress.Definition.Create(settings, context);
        _waits = [.. Enumerable.Range(0, context.Format.Channels).Select(_ => new FractionalDelay(_compress.LatencyFrames))];
        _band = [.. _waits.Select(_ => new double[stretchFrames])];
        _key = [.. Enumerable.Range(0, context.KeyChannels).Select(_ => new double[stretchFrames])];
        _lateKey = [.. _key.Select(_ => new FractionalDelay(late))];
        MemoryFrames = _part.TailFrames + _compress.MemoryFrames;
        TailFrames = _part.TailFrames + _compress.TailFrames;
        Reducer = new InnerReducer(FormattableString.Invariant($"{kind.Key.Replace('_', ' ')} at {values[kind.Freq]:0.#} Hz"), (IGainReducer)_compress, late + LatencyFrames);
    }

    public int LatencyFrames => _compress.LatencyFrames;

    public long TailFrames { get; }

    public long MemoryFrames { get; }

    public InnerReducer Reducer { get; }

    /// <summary>Works in place on a stretch.</summary>
    public void Process(AudioBlock block, AudioBlock key)
    {
        var band = new AudioBlock(_band, 0, block.Frames);
        for (var channel = 0; channel < block.Channels; channel++)
        {
            block[channel].CopyTo(band[channel]);
        }

        _part.Process(band);
        for (var channel = 0; channel < block.Channels; channel++)
        {
            Subtract(block[channel], band[channel]);
            _waits[channel].Process(block[channel]);
        }

        _compress.Process(band, Key(key));
        for (var channel = 0; channel < block.Channels; channel++)
        {
            Add(block[channel], band[channel]);
        }
    }

    private AudioBlock Key(AudioBlock key)
    {
        if (_keyPart is null)
        {
            return AudioBlock.None;
        }

        var part = new AudioBlock(_key, 0, key.Frames);
        for (var channel = 0; channel < _key.Length; channel++)
        {
            key[channel].CopyTo(part[channel]);
            _lateKey[channel].Process(part[channel]);
        }

        _keyPart.Process(part);
        return part;
    }

    private static void Subtract(Span<double> from, ReadOnlySpan<double> what)
    {
        for (var n = 0; n < from.Length; n++)
        {
            from[n] -= what[n];
        }
    }

    private static void Add(Span<double> to, ReadOnlySpan<double> what)
    {
        for (var n = 0; n < to.Length; n++)
        {
            to[n] += what[n];
        }
    }
}
