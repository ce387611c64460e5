using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Metering;

/// <summary>The sum of each window of as many slices, one window for each slice it can start with.</summary>
/// <remarks>Lanes are windows, so each sum runs over its slices in order.</remarks>
internal readonly ref struct WindowSums(Span<double> sums, ReadOnlySpan<double> slices, int slicesEach) : ILaneKernel
{
    private readonly ref double _sums = ref MemoryMarshal.GetReference(sums);
    private readonly ref readonly double _slices = ref MemoryMarshal.GetReference(sums.IsEmpty ? slices : slices[..(sums.Length + slicesEach - 1)]);

    public nint Length { get; } = sums.Length;

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public nint Run<T>(nint i)
        where T : struct, ILaneBits<T>
    {
        var length = Length;
        ref var sums = ref _sums;
        ref readonly var slices = ref _slices;
        for (; i <= length - T.Count; i += T.Count)
        {
            var sum = T.Of(0);
            for (var slice = i; slice < i + slicesEach; slice++)
            {
                sum += T.Load(in slices, slice);
            }

            sum.Store(ref sums, i);
        }

        return i;
    }
}
