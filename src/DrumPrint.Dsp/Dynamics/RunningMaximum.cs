namespace DrumPrint.Dsp.Dynamics;

/// <summary>The largest of the last values, at a cost that does not depend on how many they are.</summary>
/// <remarks>
/// <para>Time is cut into pieces as long as the window. A window is the end of one piece and the beginning of the next: the largest of
/// each end is worked out backwards once a piece is full, that of a beginning as it comes (M. van Herk, "A fast algorithm for local
/// minimum and maximum filters on rectangular and octagonal kernels", 1992, from memory). So it hardly ever branches.</para>
/// <para>Of equal values the newest one comes out. What is not a number comes out once, and wipes out all before it.</para>
/// </remarks>
/// <param name="length">How many values count, the newest among them.</param>
internal sealed class RunningMaximum(int length)
{
    private const double Nothing = double.NegativeInfinity;

    // Up to the place the values of this piece; from it on the largest of the piece before, from there to its end.
    private readonly double[] _ends = Empty(length + 1);
    private double _beginning = Nothing;
    private int _place;

    /// <summary>Replaces each value by the largest up to it.</summary>
    public void Follow(Span<double> values)
    {
        var (ends, beginning, place) = (_ends, _beginning, _place);
        foreach (ref var value in values)
        {
            if (double.IsNaN(value))
            {
                Array.Fill(ends, Nothing);
                beginning = Nothing;
            }
            else
            {
                ends[place] = value;
                beginning = beginning > value ? beginning : value;
                var end = ends[place + 1];
                value = end > beginning ? end : beginning;
            }

            if (++place == ends.Length - 1)
            {
                TurnIntoEnds(ends);
                (beginning, place) = (Nothing, 0);
            }
        }

        (_beginning, _place) = (beginning, place);
    }

    /// <summary>The largest up to the next value.</summary>
    public double Next(double value)
    {
        Follow(new Span<double>(ref value));
        return value;
    }

    private static void TurnIntoEnds(Span<double> values)
    {
        var end = Nothing;
        for (var i = values.Length - 1; i >= 0; i--)
        {
            end = values[i] > end ? values[i] : end;
            values[i] = end;
        }
    }

    private static double[] Empty(int count)
    {
        var values = new double[count];
        Array.Fill(values, Nothing);
        return values;
    }
}
