using System.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Delays one channel by any number of frames, whole or not.</summary>
/// <remarks>
/// A part of a frame is made with a windowed sinc (Kaiser, 110 dB), right to −100 dB up to nine tenths of half the sample
/// rate (Laakso, Välimäki, Karjalainen and Laine, Splitting the Unit Delay, IEEE Signal Processing Magazine 1996, from
/// memory). It reaches to both sides of its centre; what does not fit in front of a short delay becomes latency.
/// </remarks>
public sealed class FractionalDelay
{
    private const double AttenuationDb = 112;
    private const double Transition = 0.1;
    private const double WholeFrame = 1e-9;
    private const int ChunkFrames = 1024;

    private readonly double[] _ring;
    private readonly double[] _taps;
    private readonly double[] _line;
    private int _oldest;

    /// <param name="frames">Delay in frames, 0 or more.</param>
    public FractionalDelay(double frames)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        var nearest = Math.Round(frames);
        var isWhole = Math.Abs(frames - nearest) < WholeFrame;
        var half = isWhole ? 0 : SincKernel.Half(AttenuationDb, Transition);
        var first = isWhole ? (int)nearest : (int)Math.Floor(frames) - half + 1;
        LatencyFrames = Math.Max(0, -first);
        _ring = new double[Math.Max(0, first)];
        _taps = isWhole ? [] : SincKernel.Taps(frames - first, half, AttenuationDb);
        _line = new double[isWhole ? 0 : _taps.Length - 1 + ChunkFrames];
        TailFrames = Math.Max(0, first + _taps.Length);
    }

    /// <summary>Frames the output lags on top of the delay asked for.</summary>
    public int LatencyFrames { get; }

    /// <summary>Frames the output goes on after the input, beyond the latency.</summary>
    public long TailFrames { get; }

    /// <summary>Delays a stretch in place.</summary>
    public void Process(Span<double> samples)
    {
        MoveWholeFrames(samples);
        while (_taps.Length > 0 && !samples.IsEmpty)
        {
            var history = _taps.Length - 1;
            var chunk = samples[..Math.Min(samples.Length, ChunkFrames)];
            chunk.CopyTo(_line.AsSpan(history));
            Convolve(chunk);
            _line.AsSpan(chunk.Length, history).CopyTo(_line);
            samples = samples[chunk.Length..];
        }
    }

    private void MoveWholeFrames(Span<double> samples)
    {
        if (_ring.Length == 0)
        {
            return;
        }

        foreach (ref var sample in samples)
        {
            (sample, _ring[_oldest]) = (_ring[_oldest], sample);
            _oldest = _oldest + 1 == _ring.Length ? 0 : _oldest + 1;
        }
    }

    // Every output adds its taps in the same order, in however many lanes.
    private void Convolve(Span<double> output)
    {
        var last = _taps.Length - 1;
        var frame = 0;
        for (; frame <= output.Length - Vector<double>.Count; frame += Vector<double>.Count)
        {
            var sums = Vector<double>.Zero;
            for (var tap = 0; tap < _taps.Length; tap++)
            {
                sums += new Vector<double>(_line.AsSpan(frame + last - tap)) * _taps[tap];
            }

            sums.CopyTo(output[frame..]);
        }

        for (; frame < output.Length; frame++)
        {
            var sum = 0.0;
            for (var tap = 0; tap < _taps.Length; tap++)
            {
                sum += _line[frame + last - tap] * _taps[tap];
            }

            output[frame] = sum;
        }
    }
}
