using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>Finds what is infinite or not a number.</summary>
public static class NotFinite
{
    /// <summary>Place of the first sample that is infinite or not a number; −1 when there is none.</summary>
    public static int IndexIn(ReadOnlySpan<double> samples)
    {
        var kernel = new Search(samples);
        Lanewise.Run(ref kernel);
        return kernel.Index;
    }

    internal ref struct Search(ReadOnlySpan<double> samples) : ILaneKernel
    {
        private readonly ref readonly double _samples = ref MemoryMarshal.GetReference(samples);

        public nint Length { get; } = samples.Length;

        public int Index { get; private set; } = -1;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var samples = ref _samples;
            if (T.Count == 1)
            {
                for (; i < length; i++)
                {
                    if (!double.IsFinite(Unsafe.Add(ref Unsafe.AsRef(in samples), i)))
                    {
                        Index = (int)i;
                        return length;
                    }
                }

                return i;
            }

            var start = i;
            var odd = T.Of(0);
            for (; i <= length - (2 * T.Count); i += 2 * T.Count)
            {
                // Only a finite number less itself is zero.
                var value = T.Load(in samples, i);
                var next = T.Load(in samples, i + T.Count);
                odd += (value - value) + (next - next);
            }

            return T.AnyBits(odd) ? start : i;
        }
    }
}
