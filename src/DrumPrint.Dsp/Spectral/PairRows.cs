using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Butterflies;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Rows of a real signal read two samples at a time: even ones as real parts, odd ones as imaginary parts.</summary>
internal readonly ref struct PairRows(ref double signal, nint stride) : IStripSource
{
    private readonly ref double _signal = ref signal;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T> =>
        T.LoadPairs(ref Unsafe.Add(ref _signal, 2 * ((row * stride) + column)), out re, out im);
}
