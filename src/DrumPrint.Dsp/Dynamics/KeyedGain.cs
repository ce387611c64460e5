using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Lays a gain over sound that waits for it: what a gate, a ducker and a shaper of hits have in common. The gain comes from the peaks
/// of the key, of both sides together, and its curve is kept in time with the sound.</summary>
internal sealed class KeyedGain
{
    private const int ChunkFrames = LinkedPeak.MaxFrames;

    private readonly LinkedPeak _peak;
    private readonly Following _follow;
    private readonly LookAhead[] _lines;
    private readonly double[] _gains = new double[LaneWidth.Whole(ChunkFrames)];
    private int _untilSound;

    /// <param name="context">The render.</param>
    /// <param name="peak">Reads the key.</param>
    /// <param name="aheadFrames">Frames by which the gain runs ahead of the sound, beyond the reader's own delay.</param>
    /// <param name="follow">Makes gains of squared levels.</param>
    public KeyedGain(ProcessorContext context, LinkedPeak peak, int aheadFrames, Following follow)
    {
        (_peak, _follow) = (peak, follow);
        LatencyFrames = peak.DelayFrames + aheadFrames;
        _untilSound = LatencyFrames;
        _lines = new LookAhead[context.Format.Channels];
        for (var channel = 0; channel < _lines.Length; channel++)
        {
            _lines[channel] = new LookAhead(LatencyFrames, ChunkFrames);
        }

        Curve = new GainCurve(context.Format.SampleRate, context.Frames);
    }

    /// <summary>Turns squared levels into gains, in place.</summary>
    /// <param name="values">A whole number of lanes long.</param>
    /// <param name="frames">How many of them count.</param>
    public delegate void Following(Span<double> values, int frames);

    /// <summary>Frames by which the sound lags.</summary>
    public int LatencyFrames { get; }

    /// <summary>The gain over time, in time with the sound after the latency has been taken out.</summary>
    public GainCurve Curve { get; }

    /// <summary>Works in place.</summary>
    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += ChunkFrames)
        {
            var frames = Math.Min(ChunkFrames, block.Frames - start);
            var part = block.Slice(start, frames);
            var gains = _gains.AsSpan(0, LaneWidth.Whole(frames));
            _peak.Read(part, _peak.IsExternal ? key.Slice(start, frames) : AudioBlock.None, gains);
            _follow(gains, frames);
            var skipped = Math.Min(_untilSound, frames);
            _untilSound -= skipped;
            Curve.Add(gains[skipped..frames]);
            for (var channel = 0; channel < part.Channels; channel++)
            {
                _lines[channel].Process(part[channel]);
                StretchMath.Scale(part[channel], gains);
            }
        }
    }
}
