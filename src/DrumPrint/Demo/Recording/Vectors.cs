using System.Numerics;
using System.Runtime.InteropServices;

namespace DrumPrint.Demo.Recording;

/// <summary>Arithmetic on whole stretches: each number on its own, so that the width of the machine never shows.</summary>
internal static class Vectors
{
    /// <summary>Adds <paramref name="source"/> × <paramref name="gain"/>.</summary>
    public static void AddScaled(Span<float> target, ReadOnlySpan<float> source, float gain)
    {
        target = target[..source.Length];
        var wideTarget = MemoryMarshal.Cast<float, Vector<float>>(target);
        var wideSource = MemoryMarshal.Cast<float, Vector<float>>(source);
        for (var i = 0; i < wideTarget.Length; i++)
        {
            wideTarget[i] += wideSource[i] * gain;
        }

        for (var n = wideTarget.Length * Vector<float>.Count; n < target.Length; n++)
        {
            target[n] += source[n] * gain;
        }
    }
}
