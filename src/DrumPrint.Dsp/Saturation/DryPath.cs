using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The untouched signal of one channel, delayed to line up with the processed one and blended with it.</summary>
internal sealed class DryPath
{
    private readonly PhaseBuffer? _buffer;
    private readonly double _wet;
    private readonly double _dry;

    /// <param name="latencyFrames">Delay of the processed signal.</param>
    /// <param name="wetGain">Gain of the processed signal before the blend.</param>
    /// <param name="mixPct">Part of the processed signal in the blend, in per cent.</param>
    public DryPath(int latencyFrames, double wetGain, double mixPct)
    {
        _wet = wetGain * mixPct / 100;
        _dry = 1 - (mixPct / 100);
        _buffer = mixPct < 100 ? new PhaseBuffer(1, latencyFrames, 1) : null;
    }

    /// <summary>One path for each channel.</summary>
    public static DryPath[] ForEach(int channels, int latencyFrames, double wetGain, double mixPct)
    {
        var paths = new DryPath[channels];
        for (var c = 0; c < channels; c++)
        {
            paths[c] = new DryPath(latencyFrames, wetGain, mixPct);
        }

        return paths;
    }

    /// <summary>Keeps a stretch of at most <see cref="PhaseBuffer.MaxFrames"/> frames before it is processed.</summary>
    public void Keep(ReadOnlySpan<double> samples)
    {
        if (_buffer is { } buffer)
        {
            samples.CopyTo(buffer.Row(0, samples.Length));
        }
    }

    /// <summary>Blends the stretch, now processed, with what was kept.</summary>
    public void Blend(Span<double> samples)
    {
        if (_buffer is not { } buffer)
        {
            Mixing.Blend.Copy(samples, _wet, samples);
            return;
        }

        var kept = buffer.Samples.AsSpan(0, samples.Length);
        for (var n = 0; n < samples.Length; n++)
        {
            samples[n] = (_wet * samples[n]) + (_dry * kept[n]);
        }

        buffer.Advance(samples.Length);
    }
}
