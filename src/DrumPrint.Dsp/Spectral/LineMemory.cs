using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Numbers, zero at first, that begin with a line of the cache, so that no vector lies across two.</summary>
internal sealed class LineMemory
{
    private const int Line = 64;

    private readonly double[] _numbers;
    private readonly int _start;

    public LineMemory(int length)
    {
        // Pinned, or the collector might move it off the line.
        _numbers = GC.AllocateArray<double>(length + (Line / sizeof(double)) - 1, pinned: true);
        var over = (int)(Marshal.UnsafeAddrOfPinnedArrayElement(_numbers, 0) & (Line - 1));
        _start = (Line - over) % Line / sizeof(double);
        Length = length;
    }

    public int Length { get; }

    public ref double First => ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_numbers), _start);

    public Span<double> Span => _numbers.AsSpan(_start, Length);
}
