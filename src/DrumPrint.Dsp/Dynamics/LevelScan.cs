using System.Numerics;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Finds where levels cross a threshold.</summary>
/// <remarks>What is not a number counts as above, in every search alike.</remarks>
internal static class LevelScan
{
    /// <summary>Index of the first level at or above a threshold; the length when there is none.</summary>
    public static int FirstAtLeast(ReadOnlySpan<double> levels, double threshold)
    {
        var thresholds = new Vector<double>(threshold);
        ref var first = ref MemoryMarshal.GetReference(levels);
        var i = 0;
        while (i <= levels.Length - Vector<double>.Count && Vector.LessThanAll(Vector.LoadUnsafe(ref first, (nuint)i), thresholds))
        {
            i += Vector<double>.Count;
        }

        while (i < levels.Length && levels[i] < threshold)
        {
            i++;
        }

        return i;
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
        var thresholds = new Vector<double>(threshold);
        ref var first = ref MemoryMarshal.GetReference(levels);
        var end = levels.Length;
        while (end >= Vector<double>.Count && Vector.LessThanAll(Vector.LoadUnsafe(ref first, (nuint)(end - Vector<double>.Count)), thresholds))
        {
            end -= Vector<double>.Count;
        }

        while (end > 0 && levels[end - 1] < threshold)
        {
            end--;
        }

        return end - 1;
    }
}
