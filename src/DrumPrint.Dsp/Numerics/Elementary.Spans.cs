using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

// Whole spans at a time: each value has the bits of the scalar form. Destination and source may be the same span, but
// must not otherwise overlap.
public static partial class Elementary
{
    /// <summary><see cref="Exp(double)"/> of each value.</summary>
    public static void Exp(ReadOnlySpan<double> source, Span<double> destination) =>
        Lanewise.Apply<ExpFunction>(source, destination);

    /// <summary><see cref="Log(double)"/> of each value.</summary>
    public static void Log(ReadOnlySpan<double> source, Span<double> destination) =>
        Lanewise.Apply<LogFunction>(source, destination);

    /// <summary><see cref="Tanh(double)"/> of each value.</summary>
    public static void Tanh(ReadOnlySpan<double> source, Span<double> destination) =>
        Lanewise.Apply<TanhFunction>(source, destination);

    /// <summary><see cref="SinCos(double)"/> of each value; the source may be either destination.</summary>
    public static void SinCos(ReadOnlySpan<double> source, Span<double> sines, Span<double> cosines)
    {
        if (Lane4.IsFast)
        {
            SinCos<Lane4>(source, sines, cosines);
        }
        else if (Lane2.IsFast)
        {
            SinCos<Lane2>(source, sines, cosines);
        }
        else
        {
            SinCos<Lane1>(source, sines, cosines);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void SinCos<T>(ReadOnlySpan<double> source, Span<double> sines, Span<double> cosines)
        where T : struct, ILaneBits<T>
    {
        Lanewise.RequireRoom(source, sines);
        Lanewise.RequireRoom(source, cosines);
        var i = 0;
        while (i < source.Length)
        {
            if (T.Count > 1 && i <= source.Length - T.Count)
            {
                var x = T.Load(in Unsafe.Add(ref MemoryMarshal.GetReference(source), i));
                if (T.AllWithin(x, -SineKernel.Limit, SineKernel.Limit))
                {
                    var sign = T.AndBits(x, T.FromBits(long.MinValue));
                    var (sin, cos) = SineKernel.SinCos(T.XorBits(x, sign));
                    T.XorBits(sin, sign).Store(ref Unsafe.Add(ref MemoryMarshal.GetReference(sines), i));
                    cos.Store(ref Unsafe.Add(ref MemoryMarshal.GetReference(cosines), i));
                    i += T.Count;
                    continue;
                }
            }

            (sines[i], cosines[i]) = SinCos(source[i]);
            i++;
        }
    }
}
