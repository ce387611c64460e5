using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>A finite impulse response that doubles or halves the rate of a signal held in rows, and the rows it reads.</summary>
/// <remarks>Each output is a sum over the taps in rising order, whatever the vector width: lanes are frames.</remarks>
internal sealed class PhaseFilter
{
    private readonly double[][] _taps;
    private readonly int[][] _offsets;

    private PhaseFilter(int inputPhases, List<(double Tap, int Sample)>[] sums)
    {
        Input = new PhaseBuffer(inputPhases, -sums.Min(s => s.Min(t => FloorDivide(t.Sample, inputPhases))));
        _taps = Array.ConvertAll(sums, s => s.Select(t => t.Tap).ToArray());
        _offsets = Array.ConvertAll(sums, s => s.Select(t => OffsetOf(t.Sample)).ToArray());
    }

    /// <summary>Where the signal to be filtered is put.</summary>
    public PhaseBuffer Input { get; }

    /// <summary>Doubles the rate: zeros between the samples, then the response, times 2.</summary>
    public static PhaseFilter Doubling(double[] response, int inputPhases)
    {
        var sums = new List<(double, int)>[2 * inputPhases];
        for (var phase = 0; phase < sums.Length; phase++)
        {
            // y[m] = Σ 2 h[k] x[(m − k)/2] over the k that leave a whole number.
            sums[phase] = [];
            for (var k = phase & 1; k < response.Length; k += 2)
            {
                Add(sums[phase], 2 * response[k], (phase - k) / 2);
            }
        }

        return new PhaseFilter(inputPhases, sums);
    }

    /// <summary>Halves the rate: the response, then every other sample.</summary>
    public static PhaseFilter Halving(double[] response, int inputPhases)
    {
        var sums = new List<(double, int)>[inputPhases / 2];
        for (var phase = 0; phase < sums.Length; phase++)
        {
            sums[phase] = [];
            for (var k = 0; k < response.Length; k++)
            {
                Add(sums[phase], response[k], (2 * phase) - k);
            }
        }

        return new PhaseFilter(inputPhases, sums);
    }

    /// <summary>Filters the stretch in <see cref="Input"/> into <paramref name="output"/> and turns it into history.</summary>
    public void Run(PhaseBuffer output, int frames)
    {
        for (var phase = 0; phase < _taps.Length; phase++)
        {
            Convolve(Input.Samples, _taps[phase], _offsets[phase], ref output.Samples[output.Start(phase)], frames);
        }

        Input.Advance(frames);
    }

    private static void Add(List<(double Tap, int Sample)> sum, double tap, int sample)
    {
        // Every other tap of a half-band response is exactly zero.
        if (tap != 0)
        {
            sum.Add((tap, sample));
        }
    }

    private static void Convolve(double[] samples, double[] taps, int[] offsets, ref double output, int frames)
    {
        ref var source = ref MemoryMarshal.GetArrayDataReference(samples);
        var lanes = Vector<double>.Count;

        // Eight sums at once hide the time of an addition. The last round may run past the stretch, not past the row.
        for (var frame = 0; frame < frames; frame += PhaseBuffer.VectorsAtOnce * lanes)
        {
            Vector<double> s0 = default, s1 = default, s2 = default, s3 = default, s4 = default, s5 = default, s6 = default, s7 = default;
            for (var t = 0; t < taps.Length; t++)
            {
                var tap = new Vector<double>(taps[t]);
                ref var x = ref Unsafe.Add(ref source, offsets[t] + frame);
                s0 += tap * Vector.LoadUnsafe(ref x);
                s1 += tap * Vector.LoadUnsafe(ref x, (nuint)lanes);
                s2 += tap * Vector.LoadUnsafe(ref x, (nuint)(2 * lanes));
                s3 += tap * Vector.LoadUnsafe(ref x, (nuint)(3 * lanes));
                s4 += tap * Vector.LoadUnsafe(ref x, (nuint)(4 * lanes));
                s5 += tap * Vector.LoadUnsafe(ref x, (nuint)(5 * lanes));
                s6 += tap * Vector.LoadUnsafe(ref x, (nuint)(6 * lanes));
                s7 += tap * Vector.LoadUnsafe(ref x, (nuint)(7 * lanes));
            }

            ref var y = ref Unsafe.Add(ref output, frame);
            s0.StoreUnsafe(ref y);
            s1.StoreUnsafe(ref y, (nuint)lanes);
            s2.StoreUnsafe(ref y, (nuint)(2 * lanes));
            s3.StoreUnsafe(ref y, (nuint)(3 * lanes));
            s4.StoreUnsafe(ref y, (nuint)(4 * lanes));
            s5.StoreUnsafe(ref y, (nuint)(5 * lanes));
            s6.StoreUnsafe(ref y, (nuint)(6 * lanes));
            s7.StoreUnsafe(ref y, (nuint)(7 * lanes));
        }
    }

    private static int FloorDivide(int a, int b) => (a - (((a % b) + b) % b)) / b;

    private int OffsetOf(int sample)
    {
        var frame = FloorDivide(sample, Input.Phases);
        return Input.Start(sample - (frame * Input.Phases)) + frame;
    }
}
