using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>The half-band response of a given length that strays least from its ideal, everywhere by the same amount.</summary>
/// <remarks>
/// A symmetric half-band response has the amplitude ½ + 2 Σ h[d] cos dω over odd d. Where it is to be 1, its odd part is to be ½.
/// By its symmetry it is then 0 as nearly where that band mirrors. Remez' exchange finds the best fit. It solves for an error
/// that alternates between n + 1 places, moves the places to the extremes of the error found, and begins again. Sources: Parks
/// and McClellan, 1972; the half-band form after Vaidyanathan and Nguyen, 1987; both from memory.
/// </remarks>
internal static class HalfBandDesign
{
    private const int PointsPerTerm = 16;
    private const int MostExchanges = 40;
    private const double Surplus = 1.08;

    /// <summary>Finds the shortest response that strays no further than asked.</summary>
    /// <param name="error">How far the amplitude may stray, well under 1.</param>
    /// <param name="edge">End of the band to keep, as a part of the rate, under ¼.</param>
    /// <returns>The taps at 1, 3, 5, … from the middle.</returns>
    public static double[] Shortest(double error, double edge)
    {
        // The amplitude less ½, in cos ω, is half the best fit of an odd polynomial to the sign from a to 1. Its error: Eremenko and
        // Yuditskii, 2007 (from memory), for many terms; with few the true one is smaller by up to a tenth.
        var a = Elementary.Cos(2 * Math.PI * edge);
        var expected = (1 - a) / (2 * Math.Sqrt(Math.PI * a));
        var terms = 1;
        while (expected > Surplus * error * Math.Sqrt(Math.Max(1, terms - 1)))
        {
            expected *= (1 - a) / (1 + a);
            terms++;
        }

        while (true)
        {
            var (taps, found) = Fit(terms, edge);
            if (found <= error)
            {
                return taps;
            }

            terms++;
        }
    }

    /// <summary>The whole response: one half in the middle, zeros between the taps, both sides alike.</summary>
    /// <param name="side">The taps at 1, 3, 5, … from the middle.</param>
    public static double[] Whole(double[] side)
    {
        var middle = (2 * side.Length) - 1;
        var taps = new double[(2 * middle) + 1];
        taps[middle] = 0.5;
        for (var i = 0; i < side.Length; i++)
        {
            taps[middle - 1 - (2 * i)] = side[i];
            taps[middle + 1 + (2 * i)] = side[i];
        }

        return taps;
    }

    /// <summary>Finds the response.</summary>
    /// <param name="terms">How many taps there are on each side of the middle that are not zero.</param>
    /// <param name="edge">End of the band to keep, as a part of the rate, under ¼.</param>
    /// <returns>The taps at 1, 3, 5, … from the middle, and how far the amplitude strays.</returns>
    public static (double[] Taps, double Error) Fit(int terms, double edge)
    {
        var points = PointsPerTerm * terms;
        var cosines = new double[points + 1][];
        var end = Elementary.Sin(2 * Math.PI * edge);
        for (var i = 0; i <= points; i++)
        {
            // The amplitude is an odd polynomial of cos ω; Chebyshev's points of its square lie closer towards the edge, as the
            // extremes do.
            var sine = end * Elementary.Sin(Math.PI / 2 * i / points);
            cosines[i] = OddCosines(Math.Sqrt(1 - (sine * sine)), terms);
        }

        int[] places = [.. Enumerable.Range(0, terms + 1).Select(i => PointsPerTerm * i)];
        var weights = Solve(cosines, places);
        for (var exchange = 0; exchange < MostExchanges; exchange++)
        {
            var moved = Extremes(cosines, weights, terms + 1);
            if (moved.Length != places.Length || moved.AsSpan().SequenceEqual(places))
            {
                break;
            }

            places = moved;
            weights = Solve(cosines, places);
        }

        return ([.. weights.Take(terms).Select(w => w / 2)], cosines.Max(c => Math.Abs(Stray(c, weights))));
    }

    // cos ω, cos 3ω, cos 5ω, … by their recurrence.
    private static double[] OddCosines(double cosine, int count)
    {
        var step = (2 * cosine * cosine) - 1;
        var result = new double[count];
        var (previous, current) = (cosine, cosine);
        for (var i = 0; i < count; i++)
        {
            result[i] = current;
            (previous, current) = (current, (2 * step * current) - previous);
        }

        return result;
    }

    private static double Stray(double[] cosines, double[] weights)
    {
        var sum = -0.5;
        for (var i = 0; i < cosines.Length; i++)
        {
            sum += weights[i] * cosines[i];
        }

        return sum;
    }

    // The weights with which the stray at the places is one amount in turn up and down.
    private static double[] Solve(double[][] cosines, int[] places)
    {
        var size = places.Length;
        var rows = new double[size][];
        for (var i = 0; i < size; i++)
        {
            rows[i] = [.. cosines[places[i]], (i & 1) == 0 ? 1 : -1, 0.5];
        }

        for (var column = 0; column < size; column++)
        {
            var pivot = column;
            for (var i = column + 1; i < size; i++)
            {
                pivot = Math.Abs(rows[i][column]) > Math.Abs(rows[pivot][column]) ? i : pivot;
            }

            (rows[column], rows[pivot]) = (rows[pivot], rows[column]);
            for (var i = 0; i < size; i++)
            {
                var part = i == column ? 0 : rows[i][column] / rows[column][column];
                for (var j = column; j <= size && part != 0; j++)
                {
                    rows[i][j] -= part * rows[column][j];
                }
            }
        }

        return [.. Enumerable.Range(0, size).Select(i => rows[i][size] / rows[i][i])];
    }

    // The largest strays of each run of one sign; of too many, those at the ends go first.
    private static int[] Extremes(double[][] cosines, double[] weights, int count)
    {
        var strays = Array.ConvertAll(cosines, c => Stray(c, weights));
        var places = new List<int>();
        for (var i = 0; i < strays.Length; i++)
        {
            if (places.Count == 0 || strays[i] < 0 != strays[places[^1]] < 0)
            {
                places.Add(i);
            }
            else if (Math.Abs(strays[i]) > Math.Abs(strays[places[^1]]))
            {
                places[^1] = i;
            }
        }

        while (places.Count > count)
        {
            places.RemoveAt(Math.Abs(strays[places[0]]) < Math.Abs(strays[places[^1]]) ? 0 : places.Count - 1);
        }

        return [.. places];
    }
}
