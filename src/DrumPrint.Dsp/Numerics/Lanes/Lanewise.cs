using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Runs a function along a span, as many lanes at a time as the machine has; the result does not depend on how many.</summary>
internal static partial class Lanewise
{
    public static void Apply<TFunction>(ReadOnlySpan<double> source, Span<double> destination)
        where TFunction : struct, ILaneFunction
    {
        if (Lane4.IsFast)
        {
            Apply<TFunction, Lane4>(source, destination);
        }
        else if (Lane2.IsFast)
        {
            Apply<TFunction, Lane2>(source, destination);
        }
        else
        {
            Apply<TFunction, Lane1>(source, destination);
        }
    }

    // Compiled in full at first use: a render has no time to spend in code that is warming up.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Apply<TFunction, TLanes>(ReadOnlySpan<double> source, Span<double> destination)
        where TFunction : struct, ILaneFunction
        where TLanes : struct, ILaneBits<TLanes>
    {
        RequireRoom(source, destination);
        ref var from = ref MemoryMarshal.GetReference(source);
        ref var to = ref MemoryMarshal.GetReference(destination);
        var i = 0;
        if (TLanes.Count > 1)
        {
            for (; i <= source.Length - TLanes.Count; i += TLanes.Count)
            {
                var x = TLanes.Load(in Unsafe.Add(ref from, i));
                if (TFunction.IsOnMainRange(x))
                {
                    TFunction.OnMainRange(x).Store(ref Unsafe.Add(ref to, i));
                    continue;
                }

                for (var lane = 0; lane < TLanes.Count; lane++)
                {
                    destination[i + lane] = TFunction.At(source[i + lane]);
                }
            }
        }

        for (; i < source.Length; i++)
        {
            destination[i] = TFunction.At(source[i]);
        }
    }

    /// <summary>Refuses a destination shorter than its source.</summary>
    public static void RequireRoom(ReadOnlySpan<double> source, Span<double> destination)
    {
        if (destination.Length < source.Length)
        {
            throw new ArgumentException("The destination is shorter than the source.", nameof(destination));
        }
    }
}
