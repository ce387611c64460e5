using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>A low-pass at twice the frame rate with any gain in its band and its middle at any place between taps, by weighted least
/// squares.</summary>
/// <remarks>
/// <para>Frequencies are parts of the frame rate, 0 to 1. The band is fitted to the gain, everything from ½ up to nothing, and
/// what happens between the two does not count.</para>
/// <para>With the right weights, least squares stray everywhere by the part asked for, as the best fit in Chebyshev's sense does.
/// Let x = cos ω, let the band end at a and the stop band begin at b, with c half-way between. Polynomials orthogonal under a
/// weight w ripple as high as √(μ/w). Here μ is the density |x − c|/√(|x − a||x − b|) of their zeros (Szegő, from memory). A step
/// between the bands leaves a ripple that falls off as 1/|x − c| from there. So w = 1/(|x − c| √(|x − a||x − b|) t²) gives the
/// ripple t.</para>
/// </remarks>
internal static class LowPassDesign
{
    private const int Points = 2048;
    private const double StopFrom = 0.5;

    // Rounding, as a part of the greatest weight: what is left open between the bands must not grow without bound.
    private const double Ridge = 1e-15;

    /// <summary>Finds the taps.</summary>
    /// <param name="half">Half the number of taps.</param>
    /// <param name="offset">Where the middle is to be, in samples after the one between the two halves.</param>
    /// <param name="edge">End of the band.</param>
    /// <param name="gain">Gain in the band, by frequency.</param>
    /// <param name="tolerance">How far the response may stray in the band, by frequency, relative to how far it may in the stop band.</param>
    public static double[] Fit(int half, double offset, double edge, Func<double, double> gain, Func<double, double> tolerance)
    {
        var band = (int)Math.Ceiling(edge * Points);
        var weights = Weights(band, tolerance);
        var cosines = Cosines();
        var turn = cosines.Length - 1;

        // Any response is an even part and an odd one about the point between its halves; each is fitted for itself. What the fit needs
        // are sums of weighted cosines over the frequencies.
        var lags = new double[2 * half];
        var evenWanted = new double[half];
        var oddWanted = new double[half];
        for (var i = 0; i <= Points; i++)
        {
            if (weights[i] == 0)
            {
                continue;
            }

            for (var lag = 0; lag < lags.Length; lag++)
            {
                lags[lag] += weights[i] * cosines[(2 * i * lag) & turn];
            }

            if (i <= band)
            {
                var size = weights[i] * gain((double)i / Points);
                var angle = Math.PI * offset * i / Points;
                var (evenSize, oddSize) = (size * Elementary.Cos(angle), size * Elementary.Sin(angle));
                for (var k = 0; k < half; k++)
                {
                    var at = i * ((2 * k) + 1);
                    evenWanted[k] += evenSize * cosines[at & turn];
                    oddWanted[k] += oddSize * cosines[(at - Points) & turn];
                }
            }
        }

        var even = new double[half][];
        var odd = new double[half][];
        for (var k = 0; k < half; k++)
        {
            even[k] = new double[half + 1];
            odd[k] = new double[half + 1];
            for (var l = k; l < half; l++)
            {
                even[k][l] = (lags[l - k] + lags[l + k + 1]) / 2;
                odd[k][l] = (lags[l - k] - lags[l + k + 1]) / 2;
            }

            even[k][k] += Ridge * lags[0];
            odd[k][k] += Ridge * lags[0];
            even[k][half] = evenWanted[k];
            odd[k][half] = oddWanted[k];
        }

        var evens = Solve(even);
        var odds = Solve(odd);
        var taps = new double[2 * half];
        for (var k = 0; k < half; k++)
        {
            taps[half + k] = (evens[k] + odds[k]) / 2;
            taps[half - 1 - k] = (evens[k] - odds[k]) / 2;
        }

        return taps;
    }

    private static double[] Weights(int band, Func<double, double> tolerance)
    {
        // The ends lie half a point within the gap, so that the weight there is finite and about that of its stretch.
        const int Stop = (int)(StopFrom * Points);
        var a = Elementary.Cos(Math.PI * (band + 0.5) / Points);
        var b = Elementary.Cos(Math.PI * (Stop - 0.5) / Points);
        var c = (a + b) / 2;
        var weights = new double[Points + 1];
        for (var i = 0; i <= Points; i++)
        {
            if (i <= band || i >= Stop)
            {
                var x = Elementary.Cos(Math.PI * i / Points);
                var t = i <= band ? tolerance((double)i / Points) : 1;
                weights[i] = (i is 0 or Points ? 0.5 : 1) / (Math.Abs(x - c) * Math.Sqrt((x - a) * (x - b)) * t * t);
            }
        }

        return weights;
    }

    // One turn of the cosine; the grid's frequency i is at 2i, half a sample of it at i.
    private static double[] Cosines()
    {
        var cosines = new double[4 * Points];
        for (var i = 0; i <= Points; i++)
        {
            var cosine = i == Points ? 0 : Elementary.Cos(Math.PI / 2 * i / Points);
            cosines[i] = cosine;
            cosines[((4 * Points) - i) & (cosines.Length - 1)] = cosine;
            cosines[(2 * Points) - i] = -cosine;
            cosines[(2 * Points) + i] = -cosine;
        }

        return cosines;
    }

    // Gauss' elimination on the upper half of a symmetric positive matrix, with what it is to give in the last column.
    private static double[] Solve(double[][] rows)
    {
        var size = rows.Length;
        for (var j = 0; j < size; j++)
        {
            var pivot = rows[j];
            for (var i = j + 1; i < size; i++)
            {
                var row = rows[i].AsSpan(i);
                var part = pivot[i] / pivot[j];
                var from = pivot.AsSpan(i, row.Length);
                for (var l = 0; l < row.Length; l++)
                {
                    row[l] -= part * from[l];
                }
            }
        }

        var result = new double[size];
        for (var j = size - 1; j >= 0; j--)
        {
            var sum = rows[j][size];
            for (var l = j + 1; l < size; l++)
            {
                sum -= rows[j][l] * result[l];
            }

            result[j] = sum / rows[j][j];
        }

        return result;
    }
}
