using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Reads how high the wave of one channel stands, between its samples too, at two or four points a frame.</summary>
/// <remarks>
/// <para>The points are those of half-band filters that double the rate. Where a point stands higher than its two neighbours, the
/// wave's own peak is near. It is read as the peak of the sine through the three points. Let the points be x(−1), x and x(1),
/// with m = (x(1) + x(−1)) / 2 and d = (x(1) − x(−1)) / 2. That sine has cos ω = m / x. Its squared peak is x² + x² d² / (x² −
/// m²). This is exact for any sine, and never more than 2 x².</para>
/// <para>Without that, the level of a steady sine would waver with where its peaks fall between the points. It would
/// waver slowly where the sine's period is close to a whole number of points. That is a tone that was never there,
/// folded down.</para>
/// </remarks>
internal sealed class TrueLevel
{
    /// <summary>Longest stretch read at once, and the distance between rows of levels.</summary>
    public const int MaxFrames = PhaseBuffer.MaxFrames;

    // Keeps nothing over nothing from being asked.
    private const double Tiny = 1e-300;

    // Less than what a wave of 1 Hz bends between two points.
    private const double Flat = 1e-13;

    // A peak stands no more than √2 times as high as a point; and sums round.
    private const double BetweenPoints = 1.41421356237309515;
    private const double Rounding = 1.0001;

    private readonly PhaseFilter _double;
    private readonly PhaseFilter? _again;
    private readonly PhaseBuffer _raised;
    private readonly double _most;

    /// <param name="first">Half-band response that doubles the rate.</param>
    /// <param name="second">The one that doubles it again; null for two points a frame.</param>
    public TrueLevel(double[] first, double[]? second)
    {
        _double = PhaseFilter.Doubling(first, 1, 1);
        _again = second is null ? null : PhaseFilter.Doubling(second, 2, 1);
        Points = second is null ? 2 : 4;
        _raised = new PhaseBuffer(Points, 1, 1);
        _most = Most(first, second ?? [0.5], Points);

        // A point can be judged once the next one is known.
        var middle = (first.Length - 1) / 2;
        DelayPoints = second is null ? middle + 1 : (2 * middle) + ((second.Length - 1) / 2) + 1;
    }

    /// <summary>Points a frame.</summary>
    public int Points { get; }

    /// <summary>By how many points the levels lag.</summary>
    public int DelayPoints { get; }

    /// <summary>How many times as high as the highest sample it is read from a level may stand, at most: that takes all taps at their
    /// largest, all of one sign, and a peak between two points.</summary>
    public double Reach => (FindsPeaks ? BetweenPoints : 1) * _most;

    /// <summary>Whether peaks are looked for between points. A mean square needs none.</summary>
    public bool FindsPeaks { get; init; } = true;

    /// <summary>Puts in a stretch and reads its levels.</summary>
    /// <param name="samples">At most <see cref="MaxFrames"/>.</param>
    /// <param name="powers">Receives the squared levels, a row of <see cref="MaxFrames"/> for each point of a frame.</param>
    // By itself: three copies within one caller would be more than the compiler takes lanes apart in.
    [MethodImpl(MethodImplOptions.NoInlining)]
    public void Read(ReadOnlySpan<double> samples, double[] powers)
    {
        var frames = samples.Length;
        samples.CopyTo(_double.Input.Row(0, frames));
        if (_again is { } again)
        {
            _double.Run(again.Input, frames);
            again.Run(_raised, frames);
        }
        else
        {
            _double.Run(_raised, frames);
        }

        for (var point = 0; point < Points; point++)
        {
            var row = powers.AsSpan(point * MaxFrames, LaneWidth.Whole(frames));
            if (FindsPeaks)
            {
                var kernel = new PeakSearch(From(point - 2, row), From(point - 1, row), From(point, row), row);
                Lanewise.Run(ref kernel);
            }
            else
            {
                var at = From(point - 1, row);
                StretchMath.Multiply(at, at, row);
            }
        }

        _raised.Advance(frames);
    }

    // The largest sum of magnitudes of the taps that make a point, of both filters as one.
    private static double Most(double[] first, double[] second, int points)
    {
        var apart = points / 2;
        var taps = new double[(apart * (first.Length - 1)) + second.Length];
        for (var i = 0; i < first.Length; i++)
        {
            for (var j = 0; j < second.Length; j++)
            {
                taps[(apart * i) + j] += 2 * first[i] * 2 * second[j];
            }
        }

        var sums = new double[points];
        for (var i = 0; i < taps.Length; i++)
        {
            sums[i % points] += Math.Abs(taps[i]);
        }

        return sums.Max() * Rounding;
    }

    private Span<double> From(int point, Span<double> row) =>
        _raised.Samples.AsSpan(point < 0 ? _raised.Start(point + Points) - 1 : _raised.Start(point), row.Length);

    internal readonly ref struct PeakSearch(ReadOnlySpan<double> before, ReadOnlySpan<double> at, ReadOnlySpan<double> after, Span<double> powers) : ILaneKernel
    {
        private readonly ref readonly double _before = ref MemoryMarshal.GetReference(before);
        private readonly ref readonly double _at = ref MemoryMarshal.GetReference(at[..before.Length]);
        private readonly ref readonly double _after = ref MemoryMarshal.GetReference(after[..before.Length]);
        private readonly ref double _powers = ref MemoryMarshal.GetReference(powers[..before.Length]);

        public nint Length { get; } = before.Length;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var before = ref _before;
            ref readonly var at = ref _at;
            ref readonly var after = ref _after;
            ref var powers = ref _powers;
            var (half, tiny, flat) = (T.Of(0.5), T.Of(Tiny), T.Of(Flat));
            for (; i <= length - T.Count; i += T.Count)
            {
                var (left, x, right) = (T.Load(in before, i), T.Load(in at, i), T.Load(in after, i));
                var power = x * x;
                var isPeak = T.AndBits(T.LessOrEqual(left * left, power), T.Less(right * right, power));
                var m = (left + right) * half;
                var d = (right - left) * half;

                // Rounding can leave nothing below the line where the wave is as good as flat.
                var below = T.Greater(T.Greater(power - (m * m), power * flat), tiny);
                var more = T.Lesser(power * (d * d) / below, power);
                (power + T.AndBits(more, isPeak)).Store(ref powers, i);
            }

            return i;
        }
    }
}
