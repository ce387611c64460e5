using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>A finite impulse response that doubles or halves the rate of a signal held in rows, and the rows it reads.</summary>
/// <remarks>Output phases are computed two or four at a time, which share the samples they are summed from. Where there is but
/// one to compute, it is split into four sums over the same frames. They take the samples 0, 1, 2 and 3 frames back, and every
/// fourth from each. They are put together with that delay.</remarks>
internal sealed class PhaseFilter
{
    private const int Parts = 4;

    private readonly int _channels;
    private readonly (int Phase, int Offset)[] _copies;
    private readonly (int Phase, int Step, SumGroup Sums)[] _groups;
    private readonly PhaseBuffer? _parts;

    private PhaseFilter(int inputPhases, int channels, List<(double Tap, int Sample)>[] sums)
    {
        _channels = channels;
        Input = new PhaseBuffer(inputPhases, -sums.Min(s => s.Min(t => FloorDivide(t.Sample, inputPhases))), channels);

        // The odd phases of a half-band doubling are the samples themselves.
        _copies = [.. Enumerable.Range(0, sums.Length).Where(p => IsCopy(sums[p])).Select(p => (p, OffsetOf(sums[p][0].Sample)))];
        int[] phases = [.. Enumerable.Range(0, sums.Length).Where(p => !IsCopy(sums[p]))];
        if (phases.Length == 1)
        {
            _parts = new PhaseBuffer(Parts, Parts - 1, channels);
            var parts = Enumerable.Range(0, Parts).Select(part => sums[phases[0]]
                .Where(t => (FloorDivide(t.Sample, inputPhases) & (Parts - 1)) == (-part & (Parts - 1)))
                .Select(t => (t.Tap, t.Sample + (part * inputPhases))));
            _groups = [(phases[0], 0, Group([.. parts.Select(p => p.ToList())]))];
            return;
        }

        // A sum in a group also passes over the samples that only the others read: short ones are cheaper in pairs.
        int Products(int[] group) => group.Length * group.SelectMany(p => sums[p]).Select(t => t.Sample).Distinct().Count();
        var size = phases.Chunk(2).Sum(Products) < phases.Chunk(Parts).Sum(Products) ? 2 : Parts;
        _groups = [.. phases.Chunk(size).Select(g => (g[0], g[1] - g[0], Group([.. g.Select(p => sums[p])])))];
    }

    /// <summary>Where the signal to be filtered is put.</summary>
    public PhaseBuffer Input { get; }

    /// <summary>Doubles the rate: zeros between the samples, then the response, times 2.</summary>
    public static PhaseFilter Doubling(double[] response, int inputPhases, int channels)
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

        return new PhaseFilter(inputPhases, channels, sums);
    }

    /// <summary>Halves the rate: the response, then every other sample.</summary>
    public static PhaseFilter Halving(double[] response, int inputPhases, int channels)
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

        return new PhaseFilter(inputPhases, channels, sums);
    }

    /// <summary>Filters the stretch in <see cref="Input"/> into <paramref name="output"/> and turns it into history.</summary>
    public void Run(PhaseBuffer output, int frames)
    {
        var samples = frames * _channels;
        foreach (var (phase, offset) in _copies)
        {
            Input.Samples.AsSpan(offset, samples).CopyTo(output.Row(phase, frames));
        }

        foreach (var (phase, step, sums) in _groups)
        {
            if (_parts is { } parts)
            {
                sums.Run(Input.Samples, ref parts.Samples[parts.Start(0)], parts.Stride, samples);
                Join(parts, output.Row(phase, frames));
                parts.Advance(frames);
            }
            else
            {
                sums.Run(Input.Samples, ref output.Samples[output.Start(phase)], step * output.Stride, samples);
            }
        }

        Input.Advance(frames);
    }

    private static bool IsCopy(List<(double Tap, int Sample)> sum) => sum is [(1, _)];

    private static void Add(List<(double Tap, int Sample)> sum, double tap, int sample)
    {
        // Every other tap of a half-band response is exactly zero.
        if (tap != 0)
        {
            sum.Add((tap, sample));
        }
    }

    private static void Join(PhaseBuffer parts, Span<double> output)
    {
        var kernel = new Joining(parts, output);
        Lanewise.Run(ref kernel);
    }

    private static int FloorDivide(int a, int b) => (a - (((a % b) + b) % b)) / b;

    private SumGroup Group(List<(double Tap, int Sample)>[] sums)
    {
        // What no other sum reads is where its own starts: the middle of a half-band response.
        var shared = sums.SelectMany(s => s).ToLookup(t => t.Sample);
        var own = sums.Select(s => s.Where(t => Math.Abs(t.Tap) == 0.5 && shared[t.Sample].Count() == 1).ToArray()).ToArray();
        var hasStarts = own.All(o => o.Length == 1);
        var steps = new SortedDictionary<int, double[]>();
        for (var i = 0; i < sums.Length; i++)
        {
            foreach (var (tap, sample) in sums[i])
            {
                if (hasStarts && sample == own[i][0].Sample)
                {
                    continue;
                }

                // From the newest sample to the oldest.
                if (!steps.TryGetValue(-sample, out var taps))
                {
                    steps[-sample] = taps = new double[sums.Length];
                }

                taps[i] = tap;
            }
        }

        int[] starts = hasStarts ? [.. own.Select(o => OffsetOf(o[0].Sample))] : [];
        return new SumGroup([.. steps.Select(s => (OffsetOf(-s.Key), s.Value))], starts, 0.5);
    }

    private int OffsetOf(int sample)
    {
        var frame = FloorDivide(sample, Input.Phases);
        return Input.Start(sample - (frame * Input.Phases)) + (frame * _channels);
    }

    internal readonly ref struct Joining(PhaseBuffer parts, Span<double> output) : ILaneKernel
    {
        private readonly ref double _output = ref MemoryMarshal.GetReference(output);

        public nint Length { get; } = output.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var output = ref _output;
            ref var part0 = ref parts.Samples[parts.Start(0)];
            ref var part1 = ref parts.Samples[parts.Start(1) - parts.Channels];
            ref var part2 = ref parts.Samples[parts.Start(2) - (2 * parts.Channels)];
            ref var part3 = ref parts.Samples[parts.Start(3) - (3 * parts.Channels)];
            for (; i <= length - T.Count; i += T.Count)
            {
                var near = T.Load(in part0, i) + T.Load(in part1, i);
                var far = T.Load(in part2, i) + T.Load(in part3, i);
                (near + far).Store(ref output, i);
            }

            return i;
        }
    }
}
