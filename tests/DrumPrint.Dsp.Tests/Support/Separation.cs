using MathNet.Numerics.LinearAlgebra;
using Lanes = System.Numerics.Vector<double>;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Two true sources, and the filters of so many taps that estimates are held against.</summary>
/// <remarks>Source: E. Vincent, R. Gribonval and C. Févotte, "Performance measurement in blind audio source separation", IEEE Transactions on
/// Audio, Speech, and Language Processing 14(4), 2006 (from memory). The target is what a filter of so many taps makes of the true target;
/// the interference is what is left of the estimate after filters of both; the rest are artefacts.</remarks>
internal sealed class Separation
{
    private readonly double[][] _sources;
    private readonly int _taps;
    private readonly Matrix<double> _matrix;

    /// <param name="target">What is wanted.</param>
    /// <param name="other">What is not.</param>
    /// <param name="taps">Taps of the filters that are allowed; the paper takes 512.</param>
    public Separation(double[] target, double[] other, int taps)
    {
        (_sources, _taps) = ([target, other], taps);
        _matrix = Matrix<double>.Build.Dense(2 * taps, 2 * taps);
        for (var a = 0; a < 2; a++)
        {
            for (var b = a; b < 2; b++)
            {
                // Σ a[t − i] · b[t − j] hangs on i − j alone, for sources that begin and end with silence.
                var (later, sooner) = (Lagged(_sources[a], _sources[b], taps), a == b ? null : Lagged(_sources[b], _sources[a], taps));
                for (var i = 0; i < taps; i++)
                {
                    for (var j = 0; j < taps; j++)
                    {
                        var sum = i >= j ? later[i - j] : (sooner ?? later)[j - i];
                        _matrix[(a * taps) + i, (b * taps) + j] = sum;
                        _matrix[(b * taps) + j, (a * taps) + i] = sum;
                    }
                }
            }
        }

        for (var i = 0; i < 2 * taps; i++)
        {
            // A billionth of white noise, so that a source without highs can be divided by.
            _matrix[i, i] *= 1 + 1e-9;
        }
    }

    /// <summary>Reads an estimate, what came out, in time with the sources.</summary>
    public SeparationFigures Of(double[] estimate)
    {
        double[] right = [.. Lagged(_sources[0], estimate, _taps), .. Lagged(_sources[1], estimate, _taps)];
        var wanted = Projected(estimate.Length, right, 1);
        var both = Projected(estimate.Length, right, 2);
        var interference = both.Zip(wanted, (b, w) => (b - w) * (b - w)).Sum();
        var artefacts = estimate.Zip(both, (e, b) => (e - b) * (e - b)).Sum();
        return new(Db(Power(wanted) / interference), Db(Power(both) / artefacts));
    }

    // The nearest sum of the first filtered sources: normal equations over all delays from 0 to taps − 1.
    private double[] Projected(int frames, double[] right, int sources)
    {
        var size = sources * _taps;
        var filters = _matrix.SubMatrix(0, size, 0, size).Cholesky().Solve(Vector<double>.Build.Dense(right[..size])).ToArray();
        var projected = new double[frames];
        for (var i = 0; i < size; i++)
        {
            var into = projected.AsSpan(i % _taps);
            var source = _sources[i / _taps].AsSpan(0, into.Length);
            var t = 0;
            for (; t <= into.Length - Lanes.Count; t += Lanes.Count)
            {
                (new Lanes(into[t..]) + (filters[i] * new Lanes(source[t..]))).CopyTo(into[t..]);
            }

            for (; t < into.Length; t++)
            {
                into[t] += filters[i] * source[t];
            }
        }

        return projected;
    }

    // Σ a[t − lag] · b[t] for each lag from 0 on. Some are summed side by side, each in order of time.
    private static double[] Lagged(double[] a, double[] b, int lags)
    {
        var sums = new double[lags];
        double[] backwards = [.. a.Reverse()];
        for (var from = 0; from < lags; from += 2 * Lanes.Count)
        {
            var beside = Math.Min(2 * Lanes.Count, lags - from);
            var head = Math.Min(from + (2 * Lanes.Count) - 1, b.Length);
            for (var lag = from; lag < from + beside; lag++)
            {
                for (var t = lag; t < head; t++)
                {
                    sums[lag] += a[t - lag] * b[t];
                }
            }

            var padded = new double[2 * Lanes.Count];
            sums.AsSpan(from, beside).CopyTo(padded);
            var (first, second) = (new Lanes(padded), new Lanes(padded, Lanes.Count));
            for (var t = head; t < b.Length; t++)
            {
                var at = a.Length - 1 - t + from;
                first += new Lanes(backwards, at) * b[t];
                second += new Lanes(backwards, at + Lanes.Count) * b[t];
            }

            first.CopyTo(padded);
            second.CopyTo(padded, Lanes.Count);
            padded.AsSpan(0, beside).CopyTo(sums.AsSpan(from));
        }

        return sums;
    }

    private static double Power(double[] x) => x.Sum(v => v * v);

    private static double Db(double power) => 10 * Math.Log10(power);
}
