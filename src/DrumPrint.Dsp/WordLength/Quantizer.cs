using System.Numerics;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.WordLength;

/// <summary>Rounds samples to the steps of an integer word, so that writing them as integers is exact.</summary>
/// <remarks>
/// Steps are 2^−(bits−1); halves round to even, which is the same both sides of zero and adds no offset. Results stop at
/// full scale, −1 to 1 less one step. Triangular dither is the difference of two uniform numbers of 32 bits. Both come
/// from the draw whose counter is the sample's place (frame × channels + channel). So where blocks are cut never
/// matters.
/// </remarks>
public sealed class Quantizer
{
    private const int LeastBits = 2;
    private const int MostBits = 32;
    private const double DrawStep = 1.0 / (1L << 32);

    private readonly CounterNoise _noise;
    private readonly bool _isDithered;
    private readonly int _channels;
    private readonly double _fullScale;
    private readonly double _step;
    private long _frame;

    /// <param name="bits">Word length, 2 to 32.</param>
    /// <param name="dither">Noise to add before rounding.</param>
    /// <param name="noise">Where the dither comes from; unused without dither.</param>
    /// <param name="channels">Channels of the signal.</param>
    public Quantizer(int bits, Dither dither, CounterNoise noise, int channels)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(bits, LeastBits);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(bits, MostBits);
        ArgumentOutOfRangeException.ThrowIfLessThan(channels, 1);
        _noise = noise;
        _isDithered = dither == Dither.Tpdf;
        _channels = channels;
        _fullScale = 1L << (bits - 1);
        _step = 1 / _fullScale;
    }

    /// <summary>Rounds the next frames in place.</summary>
    public void Process(AudioBlock block) => Process(block, block);

    /// <summary>Rounds the next frames.</summary>
    /// <param name="source">The frames.</param>
    /// <param name="target">Where they go, as many: <paramref name="source"/> itself, or other memory.</param>
    public void Process(AudioBlock source, AudioBlock target)
    {
        if (source.Channels != _channels || target.Channels != _channels)
        {
            throw new ArgumentException($"The quantizer was made for {_channels} channels, the block has {(source.Channels == _channels ? target : source).Channels}.", nameof(source));
        }

        for (var c = 0; c < _channels; c++)
        {
            var rounded = target[c][..source.Frames];
            if (_isDithered)
            {
                RoundDithered(source[c], rounded, (_frame * _channels) + c);
            }
            else
            {
                Round(source[c], rounded);
            }
        }

        _frame += source.Frames;
    }

    private void Round(ReadOnlySpan<double> source, Span<double> target)
    {
        var n = 0;
        ref var from = ref MemoryMarshal.GetReference(source);
        ref var to = ref MemoryMarshal.GetReference(target);
        var least = new Vector<double>(-_fullScale);
        var most = new Vector<double>(_fullScale - 1);
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            var steps = Vector.Round(Vector.LoadUnsafe(ref from, (nuint)n) * _fullScale);
            (Vector.Min(Vector.Max(steps, least), most) * _step).StoreUnsafe(ref to, (nuint)n);
        }

        for (; n < source.Length; n++)
        {
            target[n] = _step * Math.Clamp(Math.Round(source[n] * _fullScale), -_fullScale, _fullScale - 1);
        }
    }

    private void RoundDithered(ReadOnlySpan<double> source, Span<double> target, long counter)
    {
        for (var n = 0; n < source.Length; n++)
        {
            var bits = _noise.Bits(counter);
            var dither = DrawStep * ((long)(bits >> 32) - (uint)bits);
            target[n] = _step * Math.Clamp(Math.Round((source[n] * _fullScale) + dither), -_fullScale, _fullScale - 1);
            counter += _channels;
        }
    }
}
