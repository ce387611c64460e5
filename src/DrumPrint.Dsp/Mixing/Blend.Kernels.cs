using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Mixing;

public static partial class Blend
{
    internal readonly ref struct Scaling(ReadOnlySpan<double> source, double gain, Span<double> target) : ILaneKernel
    {
        private readonly ref readonly double _source = ref MemoryMarshal.GetReference(source);
        private readonly ref double _target = ref MemoryMarshal.GetReference(target[..source.Length]);

        public nint Length { get; } = source.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var source = ref _source;
            ref var target = ref _target;
            var factor = T.Of(gain);
            for (; i <= length - T.Count; i += T.Count)
            {
                (T.Load(in source, i) * factor).Store(ref target, i);
            }

            return i;
        }
    }

    // Adding zero turns −0 into 0, as a sum does.
    internal readonly ref struct Beginning(ReadOnlySpan<double> source, double gain, Span<double> target) : ILaneKernel
    {
        private readonly ref readonly double _source = ref MemoryMarshal.GetReference(source);
        private readonly ref double _target = ref MemoryMarshal.GetReference(target[..source.Length]);

        public nint Length { get; } = source.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var source = ref _source;
            ref var target = ref _target;
            var factor = T.Of(gain);
            for (; i <= length - T.Count; i += T.Count)
            {
                ((T.Load(in source, i) * factor) + T.Of(0)).Store(ref target, i);
            }

            return i;
        }
    }

    internal readonly ref struct Adding(ReadOnlySpan<double> source, double gain, Span<double> target) : ILaneKernel
    {
        private readonly ref readonly double _source = ref MemoryMarshal.GetReference(source);
        private readonly ref double _target = ref MemoryMarshal.GetReference(target[..source.Length]);

        public nint Length { get; } = source.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var source = ref _source;
            ref var target = ref _target;
            var factor = T.Of(gain);
            for (; i <= length - T.Count; i += T.Count)
            {
                (T.Load(in target, i) + (T.Load(in source, i) * factor)).Store(ref target, i);
            }

            return i;
        }
    }

    internal readonly ref struct AddingProducts(ReadOnlySpan<double> source, ReadOnlySpan<double> gains, Span<double> target) : ILaneKernel
    {
        private readonly ref readonly double _source = ref MemoryMarshal.GetReference(source);
        private readonly ref readonly double _gains = ref MemoryMarshal.GetReference(gains[..source.Length]);
        private readonly ref double _target = ref MemoryMarshal.GetReference(target[..source.Length]);

        public nint Length { get; } = source.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var source = ref _source;
            ref readonly var gains = ref _gains;
            ref var target = ref _target;
            for (; i <= length - T.Count; i += T.Count)
            {
                (T.Load(in target, i) + (T.Load(in source, i) * T.Load(in gains, i))).Store(ref target, i);
            }

            return i;
        }
    }

    internal readonly ref struct Exchanging(Span<double> one, Span<double> other) : ILaneKernel
    {
        private readonly ref double _one = ref MemoryMarshal.GetReference(one);
        private readonly ref double _other = ref MemoryMarshal.GetReference(other[..one.Length]);

        public nint Length { get; } = one.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var one = ref _one;
            ref var other = ref _other;
            for (; i <= length - T.Count; i += T.Count)
            {
                var held = T.Load(in one, i);
                T.Load(in other, i).Store(ref one, i);
                held.Store(ref other, i);
            }

            return i;
        }
    }
}
