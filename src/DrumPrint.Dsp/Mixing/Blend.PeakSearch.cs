using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Mixing;

public static partial class Blend
{
    internal ref struct PeakSearch(ReadOnlySpan<double> source, double floor) : ILaneKernel
    {
        private readonly ref readonly double _source = ref MemoryMarshal.GetReference(source);

        public nint Length { get; } = source.Length;

        public double Peak { get; private set; } = floor;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            var peak = Peak;
            ref readonly var source = ref _source;
            if (T.Count == 1)
            {
                for (; i < length; i++)
                {
                    peak = Math.Max(peak, Math.Abs(Unsafe.Add(ref Unsafe.AsRef(in source), i)));
                }

                Peak = peak;
                return i;
            }

            var start = i;
            var peaks = T.Of(peak);
            var morePeaks = peaks;
            var odd = T.Of(0);
            for (; i <= length - (2 * T.Count); i += 2 * T.Count)
            {
                var value = T.Load(in source, i);
                var more = T.Load(in source, i + T.Count);
                peaks = T.Greater(peaks, T.Abs(value));
                morePeaks = T.Greater(morePeaks, T.Abs(more));
                odd += (value - value) + (more - more);
            }

            if (T.AnyBits(odd))
            {
                // What is not a number or infinite the quick comparison may lose.
                return start;
            }

            Peak = Math.Max(peak, T.Greatest(T.Greater(peaks, morePeaks)));
            return i;
        }
    }
}
