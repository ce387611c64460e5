using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Resampling;

/// <summary>All weights of all phases, worked out beforehand.</summary>
internal sealed class PhaseTable : IPhases
{
    private readonly int _taps;
    private readonly int _lanes;
    private readonly double[] _weights;

    public PhaseTable(RateFilter filter, int phases, int lanes)
    {
        _taps = 2 * filter.Half;
        _lanes = lanes;
        _weights = new double[phases * _taps];
        for (var phase = 0; phase <= phases / 2; phase++)
        {
            var weights = _weights.AsSpan(phase * _taps, _taps);
            for (var tap = 0; tap < _taps; tap++)
            {
                weights[tap] = filter.At(((double)phase / phases) + filter.Half - 1 - tap);
            }

            // As far behind one input sample as this phase lies before the next: the same weights backwards.
            var mirror = phases - phase;
            if (phase > 0 && mirror != phase)
            {
                weights.CopyTo(_weights.AsSpan(mirror * _taps));
                _weights.AsSpan(mirror * _taps, _taps).Reverse();
            }
        }
    }

    public double Sum(ReadOnlySpan<double> inputs, int phase)
    {
        var weights = _weights.AsSpan(phase * _taps, _taps);
        inputs = inputs[.._taps];
        return _lanes switch
        {
            8 => Sum<Lane8>(inputs, weights),
            4 => Sum<Lane4>(inputs, weights),
            2 => Sum<Lane2>(inputs, weights),
            _ => Sum<Lane1>(inputs, weights),
        };
    }

    // Eight sums side by side, whatever the lane width; see EightSums.
    private static double Sum<T>(ReadOnlySpan<double> inputs, ReadOnlySpan<double> weights)
        where T : struct, ILanes<T>
    {
        var sums = default(EightSums);
        ref var x = ref MemoryMarshal.GetReference(inputs);
        ref var w = ref MemoryMarshal.GetReference(weights);
        for (var lane = 0; lane < EightSums.Count; lane += T.Count)
        {
            var sum = T.Of(0);
            for (var tap = lane; tap < weights.Length; tap += EightSums.Count)
            {
                sum += T.Load(ref Unsafe.Add(ref x, tap)) * T.Load(ref Unsafe.Add(ref w, tap));
            }

            sum.Store(ref sums[lane]);
        }

        return sums.Total;
    }
}
