using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Audio;

/// <summary>Goes between frames, as files hold them, and channels, as blocks hold them.</summary>
internal static class Interleaving
{
    /// <summary>Takes one channel out of frames.</summary>
    public static void Take(ReadOnlySpan<double> frames, int channels, int channel, Span<double> target)
    {
        for (int n = 0, at = channel; n < target.Length; n++, at += channels)
        {
            target[n] = frames[at];
        }
    }

    /// <summary>Puts left and right into frames.</summary>
    public static void PutBoth(ReadOnlySpan<double> left, ReadOnlySpan<double> right, Span<double> frames)
    {
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right[..left.Length]);
        ref var pairs = ref MemoryMarshal.GetReference(frames[..(2 * left.Length)]);
        for (var n = 0; n < left.Length; n++)
        {
            Vector128.Create(Unsafe.Add(ref l, n), Unsafe.Add(ref r, n)).StoreUnsafe(ref pairs, (nuint)(2 * n));
        }
    }

    /// <summary>Puts one channel into frames.</summary>
    public static void Put(ReadOnlySpan<double> source, int channels, int channel, Span<double> frames)
    {
        for (int n = 0, at = channel; n < source.Length; n++, at += channels)
        {
            frames[at] = source[n];
        }
    }
}
