using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

internal static partial class StretchMath
{
    internal readonly ref struct Raising(Span<double> values, ReadOnlySpan<double> others) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);
        private readonly ref readonly double _others = ref MemoryMarshal.GetReference(others[..values.Length]);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            ref readonly var others = ref _others;
            for (; i <= length - T.Count; i += T.Count)
            {
                T.Greater(T.Load(in values, i), T.Load(in others, i)).Store(ref values, i);
            }

            return i;
        }
    }

    internal readonly ref struct Lowering(Span<double> values, ReadOnlySpan<double> others) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);
        private readonly ref readonly double _others = ref MemoryMarshal.GetReference(others[..values.Length]);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            ref readonly var others = ref _others;
            for (; i <= length - T.Count; i += T.Count)
            {
                T.Lesser(T.Load(in values, i), T.Load(in others, i)).Store(ref values, i);
            }

            return i;
        }
    }

    internal readonly ref struct Approaching(Span<double> values, ReadOnlySpan<double> others, double part) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);
        private readonly ref readonly double _others = ref MemoryMarshal.GetReference(others[..values.Length]);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            ref readonly var others = ref _others;
            var step = T.Of(part);
            for (; i <= length - T.Count; i += T.Count)
            {
                var value = T.Load(in values, i);
                T.Fma(step, T.Load(in others, i) - value, value).Store(ref values, i);
            }

            return i;
        }
    }

    internal readonly ref struct Mixing(Span<double> values, double factor, double constant) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            var (multiple, added) = (T.Of(factor), T.Of(constant));
            for (; i <= length - T.Count; i += T.Count)
            {
                T.Fma(multiple, T.Load(in values, i), added).Store(ref values, i);
            }

            return i;
        }
    }

    internal readonly ref struct AddingFused(Span<double> values, ReadOnlySpan<double> others, double factor) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);
        private readonly ref readonly double _others = ref MemoryMarshal.GetReference(others[..values.Length]);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            ref readonly var others = ref _others;
            var multiple = T.Of(factor);
            for (; i <= length - T.Count; i += T.Count)
            {
                T.Fma(multiple, T.Load(in others, i), T.Load(in values, i)).Store(ref values, i);
            }

            return i;
        }
    }

    internal readonly ref struct Multiplying(ReadOnlySpan<double> samples, ReadOnlySpan<double> gains, Span<double> products) : ILaneKernel
    {
        private readonly ref readonly double _samples = ref MemoryMarshal.GetReference(samples);
        private readonly ref readonly double _gains = ref MemoryMarshal.GetReference(gains[..samples.Length]);
        private readonly ref double _products = ref MemoryMarshal.GetReference(products[..samples.Length]);

        public nint Length { get; } = samples.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var samples = ref _samples;
            ref readonly var gains = ref _gains;
            ref var products = ref _products;
            for (; i <= length - T.Count; i += T.Count)
            {
                (T.Load(in samples, i) * T.Load(in gains, i)).Store(ref products, i);
            }

            return i;
        }
    }
}
