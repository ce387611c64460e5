using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Products of spectra, bin by bin, added to a running sum in the order given.</summary>
/// <remarks>A factor holds the real parts of all bins and then their imaginary parts. Four products at a time spare most of
/// the loads and stores of the sum; the order of additions is that of one at a time.</remarks>
internal static class SpectralProduct
{
    /// <summary>to += x · h.</summary>
    public static void Add<T>(ref double toRe, ref double toIm, ref double x, ref double h, nint bins)
        where T : struct, ILane<T>
    {
        for (nint re = 0; re < bins; re += T.Width)
        {
            var im = re + bins;
            var sumRe = T.Load(ref Unsafe.Add(ref toRe, re));
            var sumIm = T.Load(ref Unsafe.Add(ref toIm, re));
            Add(ref sumRe, ref sumIm, ref x, ref h, re, im);
            sumRe.Store(ref Unsafe.Add(ref toRe, re));
            sumIm.Store(ref Unsafe.Add(ref toIm, re));
        }
    }

    /// <summary>to += x0 · h0, then x1 · h1, x2 · h2 and x3 · h3.</summary>
    public static void Add<T>(
        ref double toRe,
        ref double toIm,
        ref double x0,
        ref double h0,
        ref double x1,
        ref double h1,
        ref double x2,
        ref double h2,
        ref double x3,
        ref double h3,
        nint bins)
        where T : struct, ILane<T>
    {
        for (nint re = 0; re < bins; re += T.Width)
        {
            var im = re + bins;
            var sumRe = T.Load(ref Unsafe.Add(ref toRe, re));
            var sumIm = T.Load(ref Unsafe.Add(ref toIm, re));
            Add(ref sumRe, ref sumIm, ref x0, ref h0, re, im);
            Add(ref sumRe, ref sumIm, ref x1, ref h1, re, im);
            Add(ref sumRe, ref sumIm, ref x2, ref h2, re, im);
            Add(ref sumRe, ref sumIm, ref x3, ref h3, re, im);
            sumRe.Store(ref Unsafe.Add(ref toRe, re));
            sumIm.Store(ref Unsafe.Add(ref toIm, re));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add<T>(ref T sumRe, ref T sumIm, ref double x, ref double h, nint re, nint im)
        where T : struct, ILane<T>
    {
        var xr = T.Load(ref Unsafe.Add(ref x, re));
        var xi = T.Load(ref Unsafe.Add(ref x, im));
        var hr = T.Load(ref Unsafe.Add(ref h, re));
        var hi = T.Load(ref Unsafe.Add(ref h, im));
        sumRe += (xr * hr) - (xi * hi);
        sumIm += (xr * hi) + (xi * hr);
    }
}
