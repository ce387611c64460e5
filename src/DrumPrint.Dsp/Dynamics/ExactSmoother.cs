namespace DrumPrint.Dsp.Dynamics;

/// <summary>Rounds off the corners of decibels by four moving means, one after another.</summary>
/// <remarks>Four means of one length have the cubic B-spline as their response: no weight is negative, so nothing overshoots. Sums
/// run on whole numbers of a fixed step. So they never drift, however long the render, and what stands still comes out as it went
/// in, to within that step.</remarks>
internal sealed class ExactSmoother
{
    private const int Means = 4;

    // 1.5·10⁻¹¹ dB. The largest sum is 6000 dB over 5000 frames: 2·10¹⁸ steps, under 2⁶³.
    private const double StepsPerDb = 68719476736;
    private const double DbPerStep = 1 / StepsPerDb;

    // Adding 1.5 · 2⁵² leaves no room for a fraction: the sum is rounded, and its last bits hold the whole number.
    private const double RoundingShift = 6755399441055744;
    private const long RoundingShiftBits = 0x4338_0000_0000_0000;

    private readonly long[][] _lines = new long[Means][];
    private readonly long[] _sums = new long[Means];
    private readonly double _part;
    private int _place;

    /// <param name="frames">Longest response wanted; the response is a little shorter.</param>
    public ExactSmoother(int frames)
    {
        var length = Math.Max(1, (frames + Means - 1) / Means);
        _part = 1.0 / length;
        Length = (Means * (length - 1)) + 1;
        for (var i = 0; i < Means; i++)
        {
            _lines[i] = new long[length];
        }
    }

    /// <summary>Frames of the response.</summary>
    public int Length { get; }

    /// <summary>Whether all it remembers is nothing.</summary>
    public bool IsAtRest => (_sums[0] | _sums[1] | _sums[2] | _sums[3]) == 0;

    /// <summary>Smooths a stretch of decibels in place.</summary>
    public void Follow(Span<double> decibels)
    {
        var (first, second, third, fourth) = (_lines[0], _lines[1], _lines[2], _lines[3]);
        var (sum1, sum2, sum3, sum4) = (_sums[0], _sums[1], _sums[2], _sums[3]);
        var (part, place) = (_part, _place);
        foreach (ref var value in decibels)
        {
            var x = Whole(value * StepsPerDb);
            sum1 += x - first[place];
            first[place] = x;
            x = Whole(sum1 * part);
            sum2 += x - second[place];
            second[place] = x;
            x = Whole(sum2 * part);
            sum3 += x - third[place];
            third[place] = x;
            x = Whole(sum3 * part);
            sum4 += x - fourth[place];
            fourth[place] = x;
            value = sum4 * part * DbPerStep;
            place = place + 1 == first.Length ? 0 : place + 1;
        }

        _place = place;
        (_sums[0], _sums[1], _sums[2], _sums[3]) = (sum1, sum2, sum3, sum4);
    }

    // Up to 2⁵¹.
    private static long Whole(double value) => BitConverter.DoubleToInt64Bits(value + RoundingShift) - RoundingShiftBits;
}
