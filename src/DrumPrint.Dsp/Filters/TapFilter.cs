using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Filters;

/// <summary>A filter without feedback for one channel: each output is a sum of weighted inputs, the newest first.</summary>
/// <remarks>Every output adds its taps in the same order, in however many lanes. Several outputs are summed side by side, for each
/// waits for its own last product.</remarks>
internal sealed class TapFilter
{
    private const int ChunkFrames = 512;
    private const int Rows = 4;
    private const int ManyRows = 8;

    private readonly double[] _taps;
    private readonly double[] _line;

    public TapFilter(IReadOnlyList<double> taps)
    {
        _taps = [.. taps];
        _line = new double[_taps.Length - 1 + ChunkFrames];
    }

    /// <summary>Filters a stretch in place.</summary>
    public void Process(Span<double> samples)
    {
        var history = _taps.Length - 1;
        while (!samples.IsEmpty)
        {
            var chunk = samples[..Math.Min(samples.Length, ChunkFrames)];
            chunk.CopyTo(_line.AsSpan(history));
            Sum(chunk);
            _line.AsSpan(chunk.Length, history).CopyTo(_line);
            samples = samples[chunk.Length..];
        }
    }

    private void Sum(Span<double> output)
    {
        var kernel = new Sums(_line, _taps, output);
        Lanewise.Run(ref kernel);
    }

    internal readonly ref struct Sums(ReadOnlySpan<double> line, double[] taps, Span<double> output) : ILaneKernel
    {
        // The input that the first tap of the first output takes; later taps lie in front of it.
        private readonly ref double _newest = ref Unsafe.Add(ref MemoryMarshal.GetReference(line[..(taps.Length - 1 + output.Length)]), taps.Length - 1);
        private readonly ref double _output = ref MemoryMarshal.GetReference(output);

        public nint Length { get; } = output.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            ref var output = ref _output;
            var weights = taps;
            for (; i <= Length - (ManyRows * T.Count); i += ManyRows * T.Count)
            {
                T a = T.Of(0), b = a, c = a, d = a, e = a, f = a, g = a, h = a;
                ref var from = ref Unsafe.Add(ref _newest, i);
                foreach (var tap in weights)
                {
                    var weight = T.Of(tap);
                    a = T.Fma(weight, T.Load(in from), a);
                    b = T.Fma(weight, T.Load(in from, T.Count), b);
                    c = T.Fma(weight, T.Load(in from, 2 * T.Count), c);
                    d = T.Fma(weight, T.Load(in from, 3 * T.Count), d);
                    e = T.Fma(weight, T.Load(in from, 4 * T.Count), e);
                    f = T.Fma(weight, T.Load(in from, 5 * T.Count), f);
                    g = T.Fma(weight, T.Load(in from, 6 * T.Count), g);
                    h = T.Fma(weight, T.Load(in from, 7 * T.Count), h);
                    from = ref Unsafe.Subtract(ref from, 1);
                }

                a.Store(ref output, i);
                b.Store(ref output, i + T.Count);
                c.Store(ref output, i + (2 * T.Count));
                d.Store(ref output, i + (3 * T.Count));
                e.Store(ref output, i + (4 * T.Count));
                f.Store(ref output, i + (5 * T.Count));
                g.Store(ref output, i + (6 * T.Count));
                h.Store(ref output, i + (7 * T.Count));
            }

            for (; i <= Length - (Rows * T.Count); i += Rows * T.Count)
            {
                T a = T.Of(0), b = a, c = a, d = a;
                ref var from = ref Unsafe.Add(ref _newest, i);
                foreach (var tap in weights)
                {
                    var weight = T.Of(tap);
                    a = T.Fma(weight, T.Load(in from), a);
                    b = T.Fma(weight, T.Load(in from, T.Count), b);
                    c = T.Fma(weight, T.Load(in from, 2 * T.Count), c);
                    d = T.Fma(weight, T.Load(in from, 3 * T.Count), d);
                    from = ref Unsafe.Subtract(ref from, 1);
                }

                a.Store(ref output, i);
                b.Store(ref output, i + T.Count);
                c.Store(ref output, i + (2 * T.Count));
                d.Store(ref output, i + (3 * T.Count));
            }

            for (; i <= Length - T.Count; i += T.Count)
            {
                var sum = T.Of(0);
                ref var from = ref Unsafe.Add(ref _newest, i);
                foreach (var tap in weights)
                {
                    sum = T.Fma(T.Of(tap), T.Load(in from), sum);
                    from = ref Unsafe.Subtract(ref from, 1);
                }

                sum.Store(ref output, i);
            }

            return i;
        }
    }
}
