using System.Numerics;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Plain arithmetic on whole stretches.</summary>
/// <remarks>Unless said otherwise the first stretch's length is a multiple of the vector's and the second is at least as
/// long.</remarks>
internal static class StretchMath
{
    /// <summary>Raises values to others where those are higher.</summary>
    public static void Raise(Span<double> values, ReadOnlySpan<double> others)
    {
        ref var first = ref MemoryMarshal.GetReference(values);
        ref var other = ref MemoryMarshal.GetReference(others);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            Vector.MaxNative(Vector.LoadUnsafe(ref first, i), Vector.LoadUnsafe(ref other, i)).StoreUnsafe(ref first, i);
        }
    }

    /// <summary>Lowers values to others where those are lower.</summary>
    public static void Lower(Span<double> values, ReadOnlySpan<double> others)
    {
        ref var first = ref MemoryMarshal.GetReference(values);
        ref var other = ref MemoryMarshal.GetReference(others);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            Vector.MinNative(Vector.LoadUnsafe(ref first, i), Vector.LoadUnsafe(ref other, i)).StoreUnsafe(ref first, i);
        }
    }

    /// <summary>Moves values a part of the way towards others.</summary>
    public static void Approach(Span<double> values, ReadOnlySpan<double> others, double part)
    {
        ref var first = ref MemoryMarshal.GetReference(values);
        ref var other = ref MemoryMarshal.GetReference(others);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            var value = Vector.LoadUnsafe(ref first, i);
            Vector.FusedMultiplyAdd(new Vector<double>(part), Vector.LoadUnsafe(ref other, i) - value, value).StoreUnsafe(ref first, i);
        }
    }

    /// <summary>Replaces values by a multiple of them and a constant.</summary>
    public static void Mix(Span<double> values, double factor, double constant)
    {
        ref var first = ref MemoryMarshal.GetReference(values);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            Vector.FusedMultiplyAdd(new Vector<double>(factor), Vector.LoadUnsafe(ref first, i), new Vector<double>(constant)).StoreUnsafe(ref first, i);
        }
    }

    /// <summary>Multiplies samples, of any number, by gains.</summary>
    public static void Scale(Span<double> samples, ReadOnlySpan<double> gains)
    {
        ref var first = ref MemoryMarshal.GetReference(samples);
        ref var gain = ref MemoryMarshal.GetReference(gains[..samples.Length]);
        var i = 0;
        for (; i <= samples.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            (Vector.LoadUnsafe(ref first, (nuint)i) * Vector.LoadUnsafe(ref gain, (nuint)i)).StoreUnsafe(ref first, (nuint)i);
        }

        for (; i < samples.Length; i++)
        {
            samples[i] *= gains[i];
        }
    }
}
