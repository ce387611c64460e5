using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Legs that are rows of a source, evenly spaced and taken as they are; rows come in digit-reversed order.</summary>
internal ref struct SourceLegs<TSource>(scoped in TSource source, nint left, ref int firstRows, int radix, int length) : ILegs
    where TSource : struct, IStripSource, allows ref struct
{
    private readonly TSource _source = source;
    private readonly nint _left = left;
    private readonly nint _step = length / radix;
    private ref int _next = ref firstRows;
    private nint _row;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Point(nint row, nint j)
    {
        _row = _next;
        _next = ref Unsafe.Add(ref _next, 1);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Load<T>(int leg, nint column, out T re, out T im)
        where T : struct, ILane<T> =>
        _source.Load(_row + (leg * _step), _left + column, out re, out im);
}
