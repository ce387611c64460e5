using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The discrete Fourier transform of real signals, spectra held as real parts and imaginary parts of the bins from 0 Hz to
/// half the rate. Planned once; transforms allocate nothing. One instance serves one thread at a time.
/// </summary>
/// <remarks>Samples go in pairs through a complex transform of half the length. The two interleaved spectra are taken
/// apart again (Cooley, Lewis and Welch 1970).</remarks>
public sealed class RealFft
{
    private readonly int _half;
    private readonly int _lanes;
    private readonly ComplexFft _fft;
    private readonly double[] _cos;
    private readonly double[] _sin;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double[] _even;
    private readonly double[] _odd;

    /// <param name="length">2, 6 or 10 times a power of two.</param>
    /// <exception cref="ArgumentException">The length is odd or has another factor.</exception>
    public RealFft(int length)
        : this(length, LaneWidth.Best)
    {
    }

    internal RealFft(int length, int lanes)
    {
        if ((length & 1) != 0)
        {
            throw new ArgumentException($"A transform of {length} real points has an odd length.", nameof(length));
        }

        _half = length / 2;
        _lanes = lanes;
        _fft = new ComplexFft(_half, lanes);
        _cos = new double[_half];
        _sin = new double[_half];
        for (var k = 0; k < _half; k++)
        {
            (_cos[k], _sin[k]) = RootOfUnity.At(-k, length);
        }

        _re = new double[_half];
        _im = new double[_half];
        _even = new double[_half];
        _odd = new double[_half];
    }

    /// <summary>Number of samples.</summary>
    public int Length => 2 * _half;

    /// <summary>Number of bins: half the length and one.</summary>
    public int Bins => _half + 1;

    /// <summary>X[k] = Σ x[n]·e^(−2πi·n·k/length) for k from 0 to length/2. The spectrum must not overlap the signal.</summary>
    public void Forward(ReadOnlySpan<double> signal, Span<double> re, Span<double> im)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(signal.Length, Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(re.Length, Bins);
        ArgumentOutOfRangeException.ThrowIfLessThan(im.Length, Bins);
        _fft.Transform(new PairRows(ref MemoryMarshal.GetReference(signal), _fft.Stride), re, im);
        (re[0], re[_half]) = (re[0] + im[0], re[0] - im[0]);
        (im[0], im[_half]) = (0, 0);
        ref var r = ref MemoryMarshal.GetReference(re);
        ref var i = ref MemoryMarshal.GetReference(im);
        var done = _lanes switch
        {
            8 => Part<Lane8>(ref r, ref i, 1),
            4 => Part<Lane4>(ref r, ref i, 1),
            2 => Part<Lane2>(ref r, ref i, 1),
            _ => 1,
        };
        _ = Part<Lane1>(ref r, ref i, done);
        if (_half > 1 && (_half & 1) == 0)
        {
            im[_half / 2] = -im[_half / 2];
        }
    }

    /// <summary>The signal a spectrum belongs to; the inverse of <see cref="Forward"/>. Imaginary parts at 0 Hz and at half
    /// the rate do not count.</summary>
    public void Inverse(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> signal)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(signal.Length, Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(re.Length, Bins);
        ArgumentOutOfRangeException.ThrowIfLessThan(im.Length, Bins);
        var scale = 0.5 / _half;
        (_re[0], _im[0]) = ((re[0] + re[_half]) * scale, (re[0] - re[_half]) * scale);
        ref var r = ref MemoryMarshal.GetReference(re);
        ref var i = ref MemoryMarshal.GetReference(im);
        var done = _lanes switch
        {
            8 => Join<Lane8>(ref r, ref i, 1),
            4 => Join<Lane4>(ref r, ref i, 1),
            2 => Join<Lane2>(ref r, ref i, 1),
            _ => 1,
        };
        _ = Join<Lane1>(ref r, ref i, done);
        if (_half > 1 && (_half & 1) == 0)
        {
            (_re[_half / 2], _im[_half / 2]) = (re[_half / 2] * (2 * scale), -im[_half / 2] * (2 * scale));
        }

        _fft.InverseUnscaled(_re, _im, _even, _odd);
        ref var to = ref MemoryMarshal.GetReference(signal);
        done = _lanes switch
        {
            8 => Interleave<Lane8>(ref to, 0),
            4 => Interleave<Lane4>(ref to, 0),
            2 => Interleave<Lane2>(ref to, 0),
            _ => 0,
        };
        _ = Interleave<Lane1>(ref to, done);
    }

    // Takes mirrored bins k and half − k apart, in place, from k on while whole lanes fit; returns the first k not done.
    private int Part<T>(ref double re, ref double im, int k)
        where T : struct, ILaneMoves<T>
    {
        var half = T.Of(0.5);
        for (; 2 * (k + T.Count - 1) < _half; k += T.Count)
        {
            var mirror = _half - k - T.Count + 1;
            ref var ar = ref Unsafe.Add(ref re, k);
            ref var ai = ref Unsafe.Add(ref im, k);
            ref var br = ref Unsafe.Add(ref re, mirror);
            ref var bi = ref Unsafe.Add(ref im, mirror);
            var (xr, xi, yr, yi) = (T.Load(ref ar), T.Load(ref ai), T.Reverse(T.Load(ref br)), T.Reverse(T.Load(ref bi)));
            var (c, s) = (T.Load(ref _cos[k]), T.Load(ref _sin[k]));
            var (er, ei, or, oi) = ((xr + yr) * half, (xi - yi) * half, (xi + yi) * half, (yr - xr) * half);
            var (tr, ti) = (T.FmaNegated(oi, s, or * c), T.Fma(or, s, oi * c));
            (er + tr).Store(ref ar);
            (ei + ti).Store(ref ai);
            T.Reverse(er - tr).Store(ref br);
            T.Reverse(ti - ei).Store(ref bi);
        }

        return k;
    }

    // The inverse of Part, scaled, into the buffers of the complex transform.
    private int Join<T>(ref double re, ref double im, int k)
        where T : struct, ILaneMoves<T>
    {
        var scale = T.Of(0.5 / _half);
        for (; 2 * (k + T.Count - 1) < _half; k += T.Count)
        {
            var mirror = _half - k - T.Count + 1;
            var (xr, xi) = (T.Load(ref Unsafe.Add(ref re, k)), T.Load(ref Unsafe.Add(ref im, k)));
            var (yr, yi) = (T.Reverse(T.Load(ref Unsafe.Add(ref re, mirror))), T.Reverse(T.Load(ref Unsafe.Add(ref im, mirror))));
            var (c, s) = (T.Load(ref _cos[k]), T.Load(ref _sin[k]));
            var (er, ei, dr, di) = ((xr + yr) * scale, (xi - yi) * scale, (xr - yr) * scale, (xi + yi) * scale);
            var (or, oi) = (T.Fma(dr, c, di * s), T.FmaNegated(dr, s, di * c));
            (er - oi).Store(ref _re[k]);
            (ei + or).Store(ref _im[k]);
            T.Reverse(er + oi).Store(ref _re[mirror]);
            T.Reverse(or - ei).Store(ref _im[mirror]);
        }

        return k;
    }

    private int Interleave<T>(ref double to, int n)
        where T : struct, ILaneMoves<T>
    {
        for (; n + T.Count <= _half; n += T.Count)
        {
            T.StorePairs(ref Unsafe.Add(ref to, 2 * n), T.Load(ref _even[n]), T.Load(ref _odd[n]));
        }

        return n;
    }
}
