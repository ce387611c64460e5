using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>Two or four weighted sums over the same samples, run side by side so that each sample is loaded once for all.</summary>
/// <remarks>A sum is added up in the order of its steps, and each product is fused into it. Lanes are frames and channels. No
/// sum crosses lanes.</remarks>
internal sealed class SumGroup
{
    private readonly int[] _starts;
    private readonly double _startWeight;
    private readonly int[] _offsets;
    private readonly double[] _taps;
    private readonly int _count;

    /// <param name="steps">Index of a sample of frame 0 and what it counts for in each sum.</param>
    /// <param name="starts">For each sum the index of one more sample, which the sum starts from; or nothing.</param>
    /// <param name="startWeight">What that sample counts for.</param>
    public SumGroup(IReadOnlyList<(int Offset, double[] Taps)> steps, int[] starts, double startWeight)
    {
        _offsets = [.. steps.Select(s => s.Offset)];
        _taps = [.. steps.SelectMany(s => s.Taps)];
        _count = steps[0].Taps.Length;
        _starts = starts;
        _startWeight = startWeight;
    }

    /// <summary>Computes the sums for as many samples of a row.</summary>
    /// <param name="source">What is summed.</param>
    /// <param name="results">Where the first sum's results go.</param>
    /// <param name="stride">Distance from one sum's results to the next one's.</param>
    /// <param name="samples">How many.</param>
    public void Run(double[] source, ref double results, int stride, int samples)
    {
        var kernel = new Kernel(this, source, ref results, stride, samples);
        Lanewise.Run(ref kernel);
    }

    // Twelve or eight sums at once hide the time of a fused step. The last round may run past the stretch, not past the row.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Four<T>(double[] source, ref double results, int stride, int samples)
        where T : struct, ILaneBits<T>
    {
        ref var origin = ref MemoryMarshal.GetArrayDataReference(source);
        for (var n = 0; n < samples; n += 3 * T.Count)
        {
            T a0 = T.Of(0), a1 = a0, a2 = a0, b0 = a0, b1 = a0, b2 = a0, c0 = a0, c1 = a0, c2 = a0, d0 = a0, d1 = a0, d2 = a0;
            ref var start = ref Unsafe.Add(ref origin, n);
            if (_starts.Length == 4)
            {
                (a0, a1, a2) = Three<T>(ref Unsafe.Add(ref start, _starts[0]));
                (b0, b1, b2) = Three<T>(ref Unsafe.Add(ref start, _starts[1]));
                (c0, c1, c2) = Three<T>(ref Unsafe.Add(ref start, _starts[2]));
                (d0, d1, d2) = Three<T>(ref Unsafe.Add(ref start, _starts[3]));
            }

            ref var tap = ref MemoryMarshal.GetArrayDataReference(_taps);
            foreach (var offset in _offsets)
            {
                ref var x = ref Unsafe.Add(ref start, offset);
                var x0 = T.Load(in x);
                var x1 = T.Load(in x, T.Count);
                var x2 = T.Load(in x, 2 * T.Count);
                var t = T.Of(tap);
                a0 = T.Fma(t, x0, a0);
                a1 = T.Fma(t, x1, a1);
                a2 = T.Fma(t, x2, a2);
                t = T.Of(Unsafe.Add(ref tap, 1));
                b0 = T.Fma(t, x0, b0);
                b1 = T.Fma(t, x1, b1);
                b2 = T.Fma(t, x2, b2);
                t = T.Of(Unsafe.Add(ref tap, 2));
                c0 = T.Fma(t, x0, c0);
                c1 = T.Fma(t, x1, c1);
                c2 = T.Fma(t, x2, c2);
                t = T.Of(Unsafe.Add(ref tap, 3));
                d0 = T.Fma(t, x0, d0);
                d1 = T.Fma(t, x1, d1);
                d2 = T.Fma(t, x2, d2);
                tap = ref Unsafe.Add(ref tap, 4);
            }

            ref var y = ref Unsafe.Add(ref results, n);
            Store(a0, a1, a2, ref y);
            Store(b0, b1, b2, ref Unsafe.Add(ref y, stride));
            Store(c0, c1, c2, ref Unsafe.Add(ref y, 2 * stride));
            Store(d0, d1, d2, ref Unsafe.Add(ref y, 3 * stride));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Two<T>(double[] source, ref double results, int stride, int samples)
        where T : struct, ILaneBits<T>
    {
        ref var origin = ref MemoryMarshal.GetArrayDataReference(source);
        for (var n = 0; n < samples; n += 4 * T.Count)
        {
            T a0 = T.Of(0), a1 = a0, a2 = a0, a3 = a0, b0 = a0, b1 = a0, b2 = a0, b3 = a0;
            ref var start = ref Unsafe.Add(ref origin, n);
            if (_starts.Length == 2)
            {
                ref var forA = ref Unsafe.Add(ref start, _starts[0]);
                ref var forB = ref Unsafe.Add(ref start, _starts[1]);
                (a0, a1, a2) = Three<T>(ref forA);
                (b0, b1, b2) = Three<T>(ref forB);
                a3 = T.Load(in forA, 3 * T.Count) * _startWeight;
                b3 = T.Load(in forB, 3 * T.Count) * _startWeight;
            }

            ref var tap = ref MemoryMarshal.GetArrayDataReference(_taps);
            foreach (var offset in _offsets)
            {
                ref var x = ref Unsafe.Add(ref start, offset);
                var x0 = T.Load(in x);
                var x1 = T.Load(in x, T.Count);
                var x2 = T.Load(in x, 2 * T.Count);
                var x3 = T.Load(in x, 3 * T.Count);
                var t = T.Of(tap);
                a0 = T.Fma(t, x0, a0);
                a1 = T.Fma(t, x1, a1);
                a2 = T.Fma(t, x2, a2);
                a3 = T.Fma(t, x3, a3);
                t = T.Of(Unsafe.Add(ref tap, 1));
                b0 = T.Fma(t, x0, b0);
                b1 = T.Fma(t, x1, b1);
                b2 = T.Fma(t, x2, b2);
                b3 = T.Fma(t, x3, b3);
                tap = ref Unsafe.Add(ref tap, 2);
            }

            ref var y = ref Unsafe.Add(ref results, n);
            Store(a0, a1, a2, ref y);
            a3.Store(ref y, 3 * T.Count);
            y = ref Unsafe.Add(ref y, stride);
            Store(b0, b1, b2, ref y);
            b3.Store(ref y, 3 * T.Count);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store<T>(T first, T second, T third, ref double results)
        where T : struct, ILaneBits<T>
    {
        first.Store(ref results);
        second.Store(ref results, T.Count);
        third.Store(ref results, 2 * T.Count);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (T First, T Second, T Third) Three<T>(ref double samples)
        where T : struct, ILaneBits<T> =>
        (T.Load(in samples) * _startWeight, T.Load(in samples, T.Count) * _startWeight, T.Load(in samples, 2 * T.Count) * _startWeight);

    internal readonly ref struct Kernel(SumGroup sums, double[] source, ref double results, int stride, int samples) : ILaneKernel
    {
        private readonly ref double _results = ref results;

        public nint Length => samples;

        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            if (sums._count == 4)
            {
                sums.Four<T>(source, ref _results, stride, samples);
            }
            else
            {
                sums.Two<T>(source, ref _results, stride, samples);
            }

            return Length;
        }
    }
}
