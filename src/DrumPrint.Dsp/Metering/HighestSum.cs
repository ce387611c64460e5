using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Metering;

/// <summary>The largest magnitude of what a row of taps makes of a line of samples.</summary>
/// <remarks>Each sum takes its taps in order, the first with the newest sample. Lanes hold different frames, and the largest of all
/// does not depend on their order.</remarks>
internal ref struct HighestSum(ReadOnlySpan<double> line, int history, double[] taps) : ILaneKernel
{
    private readonly ref double _newest = ref Unsafe.Add(ref MemoryMarshal.GetReference(line), history);

    public nint Length { get; } = line.Length - history;

    public double Highest { get; private set; }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public nint Run<T>(nint i)
        where T : struct, ILaneBits<T>
    {
        var weights = taps;
        var highest = T.Of(Highest);

        // Eight sums at once hide the time of a fused step.
        for (; i <= Length - (8 * T.Count); i += 8 * T.Count)
        {
            T a = T.Of(0), b = a, c = a, d = a, e = a, f = a, g = a, h = a;
            ref var x = ref Unsafe.Add(ref _newest, i);
            foreach (var weight in weights)
            {
                var t = T.Of(weight);
                a = T.Fma(T.Load(in x), t, a);
                b = T.Fma(T.Load(in x, T.Count), t, b);
                c = T.Fma(T.Load(in x, 2 * T.Count), t, c);
                d = T.Fma(T.Load(in x, 3 * T.Count), t, d);
                e = T.Fma(T.Load(in x, 4 * T.Count), t, e);
                f = T.Fma(T.Load(in x, 5 * T.Count), t, f);
                g = T.Fma(T.Load(in x, 6 * T.Count), t, g);
                h = T.Fma(T.Load(in x, 7 * T.Count), t, h);
                x = ref Unsafe.Subtract(ref x, 1);
            }

            highest = Larger(Larger(Larger(highest, a, b), c, d), Larger(T.Of(0), e, f), Larger(T.Of(0), g, h));
        }

        for (; i <= Length - T.Count; i += T.Count)
        {
            var sum = T.Of(0);
            ref var x = ref Unsafe.Add(ref _newest, i);
            foreach (var weight in weights)
            {
                sum = T.Fma(T.Load(in x), T.Of(weight), sum);
                x = ref Unsafe.Subtract(ref x, 1);
            }

            highest = T.Max(highest, T.Abs(sum));
        }

        Highest = T.Greatest(highest);
        return i;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Larger<T>(T highest, T a, T b)
        where T : struct, ILaneBits<T> => T.Max(highest, T.Max(T.Abs(a), T.Abs(b)));
}
