using System.Runtime.InteropServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The transform of real signals at the frequencies halfway between the usual ones. Multiplying two such spectra convolves
/// with the wrapped part negated, which overlap-save throws away; there is no bin of its own for 0 Hz or half the rate, and
/// no sorting of mirrored bins.
/// </summary>
/// <remarks>Source: the odd-frequency transform of Vernet, "Real signals fast Fourier transform: storage capacity and step
/// number reduction by means of an odd discrete Fourier transform", Proc. IEEE 59 (1971) (from memory): of the N
/// conjugate-symmetric bins k + ½ the even-numbered N/2 are kept, and these are the complex transform of
/// (x[n] − i·x[n + N/2])·e^(−πi·n/N).</remarks>
internal sealed class OddFrequencyFft
{
    private readonly ComplexFft _fft;
    private readonly double[] _cos;
    private readonly double[] _sin;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly int _lanes;

    /// <param name="half">Half the length of the real signal, and the number of bins.</param>
    /// <param name="lanes">Lane width to use.</param>
    public OddFrequencyFft(int half, int lanes)
    {
        _lanes = half % 8 == 0 ? lanes : 1;
        _fft = new ComplexFft(half, lanes);
        _cos = new double[half];
        _sin = new double[half];
        _re = new double[half];
        _im = new double[half];
        for (var n = 0; n < half; n++)
        {
            (_cos[n], _sin[n]) = RootOfUnity.At(-n, 4L * half);
        }
    }

    /// <summary>Half the length of the real signal, and the number of bins.</summary>
    public int Half => _cos.Length;

    /// <summary>Spectrum of a signal given as its two halves.</summary>
    public void Forward(ReadOnlySpan<double> first, ReadOnlySpan<double> second, Span<double> re, Span<double> im)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(first.Length, Half);
        ArgumentOutOfRangeException.ThrowIfLessThan(second.Length, Half);
        _fft.Transform(
            new TurnedHalves(
                ref MemoryMarshal.GetReference(first),
                ref MemoryMarshal.GetReference(second),
                _fft.Stride,
                ref MemoryMarshal.GetArrayDataReference(_cos),
                ref MemoryMarshal.GetArrayDataReference(_sin)),
            re,
            im);
    }

    /// <summary>Second half of the signal that belongs to a spectrum, times <see cref="Half"/>.</summary>
    public void InverseSecondHalf(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> second)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(second.Length, Half);
        _fft.InverseUnscaled(re, im, _re, _im);
        switch (_lanes)
        {
            case 8:
                TurnBack<Lane8>(second);
                break;
            case 4:
                TurnBack<Lane4>(second);
                break;
            case 2:
                TurnBack<Lane2>(second);
                break;
            default:
                TurnBack<Lane1>(second);
                break;
        }
    }

    // The second half is −Im(z·e^(+πi·n/N)).
    private void TurnBack<T>(Span<double> second)
        where T : struct, ILane<T>
    {
        for (var n = 0; n < Half; n += T.Width)
        {
            var real = T.Load(ref _re[n]) * T.Load(ref _sin[n]);
            var imaginary = T.Load(ref _im[n]) * T.Load(ref _cos[n]);
            (real - imaginary).Store(ref second[n]);
        }
    }
}
