using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Legs that are rows of a strip, evenly spaced; every one but the first is turned by its root of unity.</summary>
internal ref struct StripLegs(Strip strip, ref double roots, int radix, nint step) : ILegs
{
    private readonly Strip _strip = strip;
    private readonly ref double _roots = ref roots;
    private readonly nint _rootsPerPlace = 2 * (radix - 1);
    private readonly nint _step = step;
    private ref double _root;
    private nint _row;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Point(nint row, nint j)
    {
        _row = row;
        _root = ref Unsafe.Add(ref _roots, j * _rootsPerPlace);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Load<T>(int leg, nint column, out T re, out T im)
        where T : struct, ILane<T>
    {
        if (leg == 0)
        {
            _strip.Load(_row, column, out re, out im);
            return;
        }

        ref var root = ref Unsafe.Add(ref _root, 2 * (leg - 1));
        _strip.LoadTurned(_row + (leg * _step), column, T.Of(root), T.Of(Unsafe.Add(ref root, 1)), out re, out im);
    }
}
