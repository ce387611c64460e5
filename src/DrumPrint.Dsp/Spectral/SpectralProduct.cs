using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Products of spectra, bin by bin, added to a running sum.</summary>
internal static class SpectralProduct
{
    /// <summary>sum += x · h, for a number of bins that the lane width divides.</summary>
    public static void Add(
        int lanes,
        ReadOnlySpan<double> xRe,
        ReadOnlySpan<double> xIm,
        ReadOnlySpan<double> hRe,
        ReadOnlySpan<double> hIm,
        Span<double> sumRe,
        Span<double> sumIm)
    {
        switch (lanes)
        {
            case 8:
                Add<Lane8>(xRe, xIm, hRe, hIm, sumRe, sumIm);
                break;
            case 4:
                Add<Lane4>(xRe, xIm, hRe, hIm, sumRe, sumIm);
                break;
            case 2:
                Add<Lane2>(xRe, xIm, hRe, hIm, sumRe, sumIm);
                break;
            default:
                Add<Lane1>(xRe, xIm, hRe, hIm, sumRe, sumIm);
                break;
        }
    }

    private static void Add<T>(
        ReadOnlySpan<double> xRe,
        ReadOnlySpan<double> xIm,
        ReadOnlySpan<double> hRe,
        ReadOnlySpan<double> hIm,
        Span<double> sumRe,
        Span<double> sumIm)
        where T : struct, ILane<T>
    {
        ref var ar = ref MemoryMarshal.GetReference(xRe);
        ref var ai = ref MemoryMarshal.GetReference(xIm);
        ref var br = ref MemoryMarshal.GetReference(hRe);
        ref var bi = ref MemoryMarshal.GetReference(hIm);
        ref var cr = ref MemoryMarshal.GetReference(sumRe);
        ref var ci = ref MemoryMarshal.GetReference(sumIm);
        for (var k = 0; k < sumRe.Length; k += T.Width)
        {
            var xr = T.Load(ref Unsafe.Add(ref ar, k));
            var xi = T.Load(ref Unsafe.Add(ref ai, k));
            var hr = T.Load(ref Unsafe.Add(ref br, k));
            var hi = T.Load(ref Unsafe.Add(ref bi, k));
            (T.Load(ref Unsafe.Add(ref cr, k)) + ((xr * hr) - (xi * hi))).Store(ref Unsafe.Add(ref cr, k));
            (T.Load(ref Unsafe.Add(ref ci, k)) + ((xr * hi) + (xi * hr))).Store(ref Unsafe.Add(ref ci, k));
        }
    }
}
