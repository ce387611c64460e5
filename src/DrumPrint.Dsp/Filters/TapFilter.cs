using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Filters;

/// <summary>A filter without feedback for one channel: each output is a sum of weighted inputs, the newest first.</summary>
/// <remarks>Every output adds its taps in the same order, in however many lanes. Several outputs are summed side by side, for each
/// waits for its own last product.</remarks>
internal sealed class TapFilter
{
    private const int ChunkFrames = 512;
    private const int Rows = 4;

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
        // The input that the first tap of the first output takes; later taps lie in front of it.
        ref var newest = ref _line[_taps.Length - 1];
        ref var to = ref MemoryMarshal.GetReference(output);
        var width = Vector<double>.Count;
        var frame = 0;
        for (; frame <= output.Length - (Rows * width); frame += Rows * width)
        {
            var (a, b, c, d) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero);
            for (var tap = 0; tap < _taps.Length; tap++)
            {
                var weight = new Vector<double>(_taps[tap]);
                ref var from = ref Unsafe.Add(ref newest, frame - tap);
                a = Vector.FusedMultiplyAdd(weight, Vector.LoadUnsafe(ref from), a);
                b = Vector.FusedMultiplyAdd(weight, Vector.LoadUnsafe(ref from, (nuint)width), b);
                c = Vector.FusedMultiplyAdd(weight, Vector.LoadUnsafe(ref from, (nuint)(2 * width)), c);
                d = Vector.FusedMultiplyAdd(weight, Vector.LoadUnsafe(ref from, (nuint)(3 * width)), d);
            }

            a.StoreUnsafe(ref to, (nuint)frame);
            b.StoreUnsafe(ref to, (nuint)(frame + width));
            c.StoreUnsafe(ref to, (nuint)(frame + (2 * width)));
            d.StoreUnsafe(ref to, (nuint)(frame + (3 * width)));
        }

        for (; frame < output.Length; frame++)
        {
            var sum = 0.0;
            for (var tap = 0; tap < _taps.Length; tap++)
            {
                sum = Math.FusedMultiplyAdd(_taps[tap], Unsafe.Add(ref newest, frame - tap), sum);
            }

            output[frame] = sum;
        }
    }
}
