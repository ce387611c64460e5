using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Mains;

/// <summary>Finds where the mains are in a number of stretches.</summary>
/// <remarks>That is where all harmonics together fit best, which is the most likely place (D. C. Rife and R. R. Boorstyn, "Multiple tone
/// parameter estimation from discrete-time observations", Bell System Technical Journal 55(9), 1976, from memory).</remarks>
internal sealed class HumSearch
{
    // The low harmonics find the place, all of them the middle of it.
    private const int CoarseHarmonics = 8;
    private const int CoarseStride = 2;
    private const double PointsPerLobe = 3;

    // A perfect fit would leave nothing to multiply.
    private const double Least = 1e-12;

    private readonly double _seconds;
    private readonly double _middleHz;
    private readonly double _trackHz;
    private readonly double _coarseHz;
    private readonly double _fineHz;
    private readonly double[] _turnRe;
    private readonly double[] _turnIm;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double[] _weights;
    private readonly double[] _totals;
    private readonly double[] _someWeights;
    private readonly double[] _someTotals;
    private readonly double[][] _weightedRe;
    private readonly double[][] _weightedIm;

    /// <param name="basis">The harmonics.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="freqHz">Where the mains should be.</param>
    /// <param name="trackHz">How far off they may be.</param>
    /// <param name="looks">How many stretches count at most.</param>
    public HumSearch(HumBasis basis, int sampleRate, double freqHz, double trackHz, int looks)
    {
        _seconds = (double)basis.Step / sampleRate;
        (_middleHz, _trackHz) = (freqHz - ((double)sampleRate / basis.Period), trackHz);
        var lobeHz = 1 / (looks * _seconds * PointsPerLobe);
        (_coarseHz, _fineHz) = (lobeHz / Math.Min(CoarseHarmonics, basis.Harmonics), lobeHz / basis.Harmonics);
        (_turnRe, _turnIm, _re, _im) = (new double[looks], new double[looks], new double[looks], new double[looks]);
        (_weightedRe, _weightedIm) = (Rows(basis.Harmonics, looks), Rows(basis.Harmonics, looks));
        (_weights, _totals) = (new double[basis.Harmonics], new double[basis.Harmonics]);
        (_someWeights, _someTotals) = (new double[basis.Harmonics], new double[basis.Harmonics]);
    }

    /// <summary>How far the mains are from the basis, in turns a step.</summary>
    /// <param name="looks">The stretches, in order.</param>
    /// <param name="middle">Where in them the hum is asked for; may lie before the first.</param>
    public double Find(ReadOnlySpan<HumLook> looks, int middle)
    {
        for (var h = 0; h < _weights.Length; h++)
        {
            Weigh(looks, h);
        }

        return Refined(looks, middle, Nearest(looks, middle)) * _seconds;
    }

    /// <summary>What turns the mains in each stretch back to the middle one.</summary>
    /// <param name="turnsPerStep">How far the mains are from the basis.</param>
    /// <param name="middle">Where the middle one is.</param>
    /// <param name="re">Receives real parts.</param>
    /// <param name="im">Receives imaginary parts; at least as long.</param>
    public static void Turns(double turnsPerStep, int middle, Span<double> re, Span<double> im)
    {
        for (var i = 0; i < re.Length; i++)
        {
            (im[i], re[i]) = Elementary.SinCos(-2 * Math.PI * turnsPerStep * (i - middle));
        }
    }

    private static double[][] Rows(int count, int length) => [.. Enumerable.Range(0, count).Select(_ => new double[length])];

    private void Weigh(ReadOnlySpan<HumLook> looks, int h)
    {
        var (sum, total, some, someTotal) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < looks.Length; i++)
        {
            var (weight, x, y) = (looks[i].Weight(h, _middleHz * _seconds), looks[i].Re[h], looks[i].Im[h]);
            (_weightedRe[h][i], _weightedIm[h][i]) = (weight * x, weight * y);
            var power = weight * Power(x, y);
            sum += weight;
            total += power;
            if (i % CoarseStride == 0)
            {
                some += weight;
                someTotal += power;
            }
        }

        (_weights[h], _totals[h], _someWeights[h]) = (sum, total, some);
        _someTotals[h] = someTotal;
    }

    // The place beside a middle one that fits best.
    private double Nearest(ReadOnlySpan<HumLook> looks, int middle)
    {
        var steps = (int)Math.Ceiling(_trackHz / _coarseHz);
        var (least, best) = (2.0, _middleHz);
        for (var i = -steps; i <= steps && steps > 0; i++)
        {
            var hz = _middleHz + (i * _trackHz / steps);
            var left = Left(looks, middle, hz, Math.Min(CoarseHarmonics, _weights.Length), CoarseStride);
            (least, best) = left < least ? (left, hz) : (least, best);
        }

        return best;
    }

    // The same between the places tried too.
    private double Refined(ReadOnlySpan<HumLook> looks, int middle, double hz)
    {
        if (_trackHz == 0)
        {
            return hz;
        }

        var width = _coarseHz;
        var at = Left(looks, middle, hz, _weights.Length, 1);
        while (width > _fineHz)
        {
            // Halfway to either side, and on from the best of the three.
            width /= 2;
            var (below, above) = (Left(looks, middle, hz - width, _weights.Length, 1), Left(looks, middle, hz + width, _weights.Length, 1));
            (hz, at) = below < at && below <= above ? (hz - width, below) : above < at ? (hz + width, above) : (hz, at);
        }

        for (var round = 0; round < 2; round++)
        {
            var below = Elementary.Log(Left(looks, middle, hz - width, _weights.Length, 1));
            var above = Elementary.Log(Left(looks, middle, hz + width, _weights.Length, 1));
            var bend = below - (2 * Elementary.Log(at)) + above;
            if (!(bend > 0))
            {
                break;
            }

            hz += width * Math.Clamp(0.5 * (below - above) / bend, -1, 1);
            at = Left(looks, middle, hz, _weights.Length, 1);
            width /= 4;
        }

        return hz;
    }

    // What of each harmonic the stretches do not have in common if the mains are so far off, multiplied: each counts by how well it agrees
    // with itself, not by how loud it is. Of the stretches every so many count.
    private double Left(ReadOnlySpan<HumLook> looks, int middle, double offHz, int harmonics, int stride)
    {
        Turns(offHz * _seconds, middle, _turnRe.AsSpan(0, looks.Length), _turnIm);
        var count = looks.Length;
        var turnRe = _turnRe.AsSpan(0, count);
        var turnIm = _turnIm.AsSpan(0, count);
        var atRe = _re.AsSpan(0, count);
        var atIm = _im.AsSpan(0, count);
        turnRe.CopyTo(atRe);
        turnIm.CopyTo(atIm);
        var left = 1.0;
        for (var h = 0; h < harmonics; h++)
        {
            var xs = _weightedRe[h].AsSpan(0, count);
            var ys = _weightedIm[h].AsSpan(0, count);
            var (re, im) = (0.0, 0.0);
            for (var i = 0; i < xs.Length; i += stride)
            {
                var (toRe, toIm) = (atRe[i], atIm[i]);
                re += (xs[i] * toRe) - (ys[i] * toIm);
                im += (xs[i] * toIm) + (ys[i] * toRe);
                atRe[i] = (toRe * turnRe[i]) - (toIm * turnIm[i]);
                atIm[i] = (toRe * turnIm[i]) + (toIm * turnRe[i]);
            }

            var (weight, total) = stride == 1 ? (_weights[h], _totals[h]) : (_someWeights[h], _someTotals[h]);
            left *= total > 0 ? Math.Max(Least, 1 - (Power(re, im) / (weight * total))) : 1;
        }

        return left;
    }

    private static double Power(double re, double im) => (re * re) + (im * im);
}
