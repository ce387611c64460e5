using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Finds where levels cross a threshold.</summary>
/// <remarks>What is not a number counts as above, in every search alike.</remarks>
internal static class LevelScan
{
    /// <summary>Index of the first level at or above a threshold; the length when there is none.</summary>
    public static int FirstAtLeast(ReadOnlySpan<double> levels, double threshold)
    {
        var kernel = new FromStart(levels, threshold);
        Lanewise.Run(ref kernel);
        return kernel.Index;
    }

    /// <summary>Index of the first level below a threshold; the length when there is none.</summary>
    public static int FirstBelow(ReadOnlySpan<double> levels, double threshold)
    {
        var i = 0;
        while (i < levels.Length && !(levels[i] < threshold))
        {
            i++;
        }

        return i;
    }

    /// <summary>Index of the last level at or above a threshold; −1 when there is none.</summary>
    public static int LastAtLeast(ReadOnlySpan<double> levels, double threshold)
    {
        var kernel = new FromEnd(levels, threshold);
        Lanewise.Run(ref kernel);
        return kernel.Index;
    }

    // Stops at the lanes that hold the level, and then at the level itself.
    internal ref struct FromStart(ReadOnlySpan<double> levels, double threshold) : ILaneKernel
    {
        private readonly ref readonly double _levels = ref MemoryMarshal.GetReference(levels);

        public nint Length { get; } = levels.Length;

        public int Index { get; private set; }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var levels = ref _levels;
            var limit = T.Of(threshold);
            while (i <= length - T.Count && T.AllLess(T.Load(in levels, i), limit))
            {
                i += T.Count;
            }

            Index = (int)i;
            return i;
        }
    }

    // The same from the end on.
    internal ref struct FromEnd(ReadOnlySpan<double> levels, double threshold) : ILaneKernel
    {
        private readonly ref readonly double _levels = ref MemoryMarshal.GetReference(levels);

        public nint Length { get; } = levels.Length;

        public int Index { get; private set; } = -1;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var levels = ref _levels;
            var limit = T.Of(threshold);
            while (i <= length - T.Count && T.AllLess(T.Load(in levels, length - T.Count - i), limit))
            {
                i += T.Count;
            }

            Index = (int)(length - 1 - i);
            return i;
        }
    }
}
