using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

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

    /// <summary>Goes to a frame, whose dither comes next.</summary>
    /// <param name="frame">Counted from the start of the file, 0 or more.</param>
    public void GoTo(long frame)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frame);
        _frame = frame;
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
                var kernel = new Rounding(source[c], _fullScale, _step, rounded);
                Lanewise.Run(ref kernel);
            }
        }

        _frame += source.Frames;
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

    // What is not a number stays so: it passes both limits in second place.
    internal readonly ref struct Rounding(ReadOnlySpan<double> source, double fullScale, double step, Span<double> target) : ILaneKernel
    {
        private readonly ref readonly double _source = ref MemoryMarshal.GetReference(source);
        private readonly ref double _target = ref MemoryMarshal.GetReference(target[..source.Length]);

        public nint Length { get; } = source.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var source = ref _source;
            ref var target = ref _target;
            var (full, size, least, most) = (T.Of(fullScale), T.Of(step), T.Of(-fullScale), T.Of(fullScale - 1));
            for (; i <= length - T.Count; i += T.Count)
            {
                var steps = T.Round(T.Load(in source, i) * full);
                (T.Lesser(most, T.Greater(least, steps)) * size).Store(ref target, i);
            }

            return i;
        }
    }
}
