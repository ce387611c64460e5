using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Sums of products of spectra, row by row of eight bins.</summary>
/// <remarks>The four products of real and imaginary parts are summed apart, each in the order of paths and parts. They are
/// joined at the end: real − imaginary, and cross + cross.</remarks>
internal static class SpectralProduct
{
    /// <summary>to = Σ x · h over all paths of one output and all parts of their filters.</summary>
    /// <param name="x">A row of every input's past spectra; a ring of <paramref name="parts"/> for each input.</param>
    /// <param name="h">The same row of every filter's parts.</param>
    /// <param name="paths">Places of the rings and filters to take.</param>
    /// <param name="parts">Parts in a filter.</param>
    /// <param name="newest">Place of the newest spectrum in each ring; older ones follow.</param>
    /// <param name="to">First number of the row of the result.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Row<T>(ref double x, ref double h, ReadOnlySpan<ConvolutionPath> paths, nint parts, nint newest, ref double to)
        where T : struct, ILaneMoves<T>
    {
        var older = parts - newest;
        for (nint column = 0; column < Strip.Width; column += T.Count)
        {
            var (rr, ii, ri, ir) = (T.Of(0), T.Of(0), T.Of(0), T.Of(0));
            ref var at = ref MemoryMarshal.GetReference(paths);
            ref var end = ref Unsafe.Add(ref at, paths.Length);
            while (Unsafe.IsAddressLessThan(ref at, ref end))
            {
                ref var ring = ref Unsafe.Add(ref x, (at.Input * parts * Strip.RowLength) + column);
                ref var part = ref Unsafe.Add(ref h, (at.Filter * parts * Strip.RowLength) + column);
                ref var spectrum = ref Unsafe.Add(ref ring, newest * Strip.RowLength);
                for (nint n = 0; n < parts; n++)
                {
                    spectrum = ref n == older ? ref ring : ref spectrum;
                    var (xr, xi) = (T.Load(ref spectrum), T.Load(ref Unsafe.Add(ref spectrum, Strip.Width)));
                    var (hr, hi) = (T.Load(ref part), T.Load(ref Unsafe.Add(ref part, Strip.Width)));
                    rr = T.Fma(xr, hr, rr);
                    ii = T.Fma(xi, hi, ii);
                    ri = T.Fma(xr, hi, ri);
                    ir = T.Fma(xi, hr, ir);
                    spectrum = ref Unsafe.Add(ref spectrum, Strip.RowLength);
                    part = ref Unsafe.Add(ref part, Strip.RowLength);
                }

                at = ref Unsafe.Add(ref at, 1);
            }

            (rr - ii).Store(ref Unsafe.Add(ref to, column));
            (ri + ir).Store(ref Unsafe.Add(ref to, Strip.Width + column));
        }
    }
}
