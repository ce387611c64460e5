using MathNet.Numerics.LinearAlgebra;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>How well what is wanted was parted from what is not, in decibels.</summary>
/// <param name="Interference">Target to interference.</param>
/// <param name="Artefacts">Target and interference to artefacts.</param>
/// <remarks>Source: E. Vincent, R. Gribonval and C. Févotte, "Performance measurement in blind audio source separation", IEEE Transactions on
/// Audio, Speech, and Language Processing 14(4), 2006 (from memory). The target is what a filter of so many taps makes of the true target;
/// the interference is what is left of the estimate after filters of both; the rest are artefacts.</remarks>
internal sealed record SeparationFigures(double Interference, double Artefacts)
{
    /// <summary>Reads an estimate.</summary>
    /// <param name="estimate">What came out, in time with the sources.</param>
    /// <param name="target">What is wanted of it.</param>
    /// <param name="other">What is not.</param>
    /// <param name="taps">Taps of the filters that are allowed; the paper takes 512.</param>
    public static SeparationFigures Of(double[] estimate, double[] target, double[] other, int taps)
    {
        var wanted = Projected(estimate, [target], taps);
        var both = Projected(estimate, [target, other], taps);
        var interference = both.Zip(wanted, (b, w) => (b - w) * (b - w)).Sum();
        var artefacts = estimate.Zip(both, (e, b) => (e - b) * (e - b)).Sum();
        return new(Db(Power(wanted) / interference), Db(Power(both) / artefacts));
    }

    // The nearest sum of filtered sources: normal equations over all delays from 0 to taps − 1.
    private static double[] Projected(double[] estimate, double[][] sources, int taps)
    {
        var size = sources.Length * taps;
        var matrix = new double[size, size];
        for (var a = 0; a < sources.Length; a++)
        {
            for (var b = 0; b < sources.Length; b++)
            {
                // Σ a[t − i] · b[t − j] hangs on i − j alone, for sources that begin and end with silence.
                var sums = Enumerable.Range(1 - taps, (2 * taps) - 1).Select(lag => Lagged(sources[a], sources[b], lag)).ToArray();
                for (var i = 0; i < taps; i++)
                {
                    for (var j = 0; j < taps; j++)
                    {
                        matrix[(a * taps) + i, (b * taps) + j] = sums[i - j + taps - 1];
                    }
                }
            }
        }

        for (var i = 0; i < size; i++)
        {
            // A billionth of white noise, so that a source without highs can be divided by.
            matrix[i, i] *= 1 + 1e-9;
        }

        var right = Enumerable.Range(0, size).Select(i => Lagged(sources[i / taps], estimate, i % taps)).ToArray();
        var filters = Matrix<double>.Build.DenseOfArray(matrix).Cholesky().Solve(Vector<double>.Build.Dense(right)).ToArray();
        var projected = new double[estimate.Length];
        for (var i = 0; i < size; i++)
        {
            var source = sources[i / taps];
            for (var t = i % taps; t < projected.Length; t++)
            {
                projected[t] += filters[i] * source[t - (i % taps)];
            }
        }

        return projected;
    }

    // Σ a[t − lag] · b[t].
    private static double Lagged(double[] a, double[] b, int lag)
    {
        var sum = 0.0;
        for (var t = Math.Max(0, lag); t < Math.Min(a.Length, a.Length + lag); t++)
        {
            sum += a[t - lag] * b[t];
        }

        return sum;
    }

    private static double Power(double[] x) => x.Sum(v => v * v);

    private static double Db(double power) => 10 * Math.Log10(power);
}
