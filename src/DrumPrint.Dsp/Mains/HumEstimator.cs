using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Mains;

/// <summary>From what many stretches hold of each harmonic to the hum that is in all of them.</summary>
/// <remarks>
/// <para>Hum stays as it is for seconds; hits come and go. Each stretch counts by one over the power of the drums in it: the weighted least
/// squares of A. C. Aitken, "On Least Squares and Linear Combination of Observations", Proc. R. Soc. Edinburgh 55, 1935 (from memory). So the
/// hum is learnt between the hits.</para>
/// <para>The frequency is the one at which all harmonics together fit best, which is the most likely one (D. C. Rife and R. R. Boorstyn, "Multiple
/// tone parameter estimation from discrete-time observations", Bell System Technical Journal 55(9), 1976, from memory).</para>
/// <para>A harmonic counts as hum only where it stands well above what the drums alone would leave.</para>
/// </remarks>
internal sealed class HumEstimator
{
    // The low harmonics find the place, all of them the middle of it.
    private const int CoarseHarmonics = 8;
    private const int CoarseStride = 2;
    private const double PointsPerLobe = 3;

    // How far above the drums' own part a harmonic's power stands: from here on some of it is taken out, from there on all.
    private const double Unsure = 28;
    private const double Sure = 34;

    // A change by more than this, against the power beside, is no noise; and what dies away is louder than its change.
    private const double Clear = 4;
    private const double Louder = 2;

    // A stretch has twice the length of a step.
    private const int StepsPerLook = 2;

    // −200 dB: what a file of 24 bits cannot hold is no hum, and no drum.
    private const double Nothing = 1e-20;

    // So alike can what strays in two looks be that follow each other.
    private const double MostAlike = 0.95;

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
    private readonly double[] _atRe;
    private readonly double[] _atIm;
    private readonly double[] _own;

    private double _offHz;

    /// <param name="basis">The harmonics.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="freqHz">Where the mains should be.</param>
    /// <param name="trackHz">How far off they may be.</param>
    /// <param name="looks">How many stretches count at most.</param>
    public HumEstimator(HumBasis basis, int sampleRate, double freqHz, double trackHz, int looks)
    {
        _seconds = (double)basis.Step / sampleRate;
        (_middleHz, _trackHz) = (freqHz - ((double)sampleRate / basis.Period), trackHz);
        var lobeHz = 1 / (looks * _seconds * PointsPerLobe);
        (_coarseHz, _fineHz) = (lobeHz / Math.Min(CoarseHarmonics, basis.Harmonics), lobeHz / basis.Harmonics);
        (_turnRe, _turnIm, _re, _im) = (new double[looks], new double[looks], new double[looks], new double[looks]);
        (_atRe, _atIm, _own) = (new double[looks], new double[looks], new double[looks]);
        (Re, Im) = (new double[basis.Harmonics], new double[basis.Harmonics]);
        (_weightedRe, _weightedIm) = (Rows(basis.Harmonics, looks), Rows(basis.Harmonics, looks));
        (_weights, _totals) = (new double[basis.Harmonics], new double[basis.Harmonics]);
        (_someWeights, _someTotals) = (new double[basis.Harmonics], new double[basis.Harmonics]);
    }

    /// <summary>Real parts of the hum's harmonics where it was asked for; 0 for one that is not hum.</summary>
    public double[] Re { get; }

    /// <summary>Imaginary parts.</summary>
    public double[] Im { get; }

    /// <summary>How far the mains are from the basis, in turns a step.</summary>
    public double TurnsPerStep { get; private set; }

    /// <summary>Whether there is any hum.</summary>
    public bool IsAny { get; private set; }

    /// <summary>Finds the hum.</summary>
    /// <param name="looks">The stretches, in order.</param>
    /// <param name="middle">Where in them the hum is asked for; may lie before the first.</param>
    /// <param name="seeks">Whether the frequency is sought anew; else it is the one found last.</param>
    public void Estimate(ReadOnlySpan<HumLook> looks, int middle, bool seeks)
    {
        if (seeks)
        {
            for (var h = 0; h < _weights.Length; h++)
            {
                Weigh(looks, h);
            }

            _offHz = Refined(looks, middle, Nearest(looks, middle));
            TurnsPerStep = _offHz * _seconds;
        }

        SetTurns(looks.Length, middle, _offHz);
        IsAny = false;
        for (var h = 0; h < Re.Length; h++)
        {
            Turn(looks.Length, h);
            Keep(looks, h);
        }
    }

    private void Weigh(ReadOnlySpan<HumLook> looks, int h)
    {
        var (sum, total, some, someTotal) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < looks.Length; i++)
        {
            var (weight, x, y) = (Weight(looks[i], h, _middleHz * _seconds), looks[i].Re[h], looks[i].Im[h]);
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

    // Weighs all looks anew, turns them to where the mains are, and asks whether what they have in common is hum.
    private void Keep(ReadOnlySpan<HumLook> looks, int h)
    {
        (Re[h], Im[h]) = (0, 0);
        var count = 0;
        var (sum, re, im) = (0.0, 0.0, 0.0);
        for (var i = 0; i < looks.Length; i++)
        {
            var (x, y, weight) = (looks[i].Re[h], looks[i].Im[h], Weight(looks[i], h, TurnsPerStep));
            (_atRe[i], _atIm[i]) = ((x * _re[i]) - (y * _im[i]), (x * _im[i]) + (y * _re[i]));
            (_own[i], count) = (weight, count + (weight > 0 ? 1 : 0));
            sum += weight;
            re += weight * _atRe[i];
            im += weight * _atIm[i];
        }

        if (count < 2)
        {
            return;
        }

        (re, im) = (re / sum, im / sum);
        var (stray, alike) = (0.0, 0.0);
        var (lastRe, lastIm) = (0.0, 0.0);
        for (var i = 0; i < looks.Length; i++)
        {
            var root = Math.Sqrt(_own[i]);
            var (farRe, farIm) = (root * (_atRe[i] - re), root * (_atIm[i] - im));
            stray += Power(farRe, farIm);
            alike += (farRe * lastRe) + (farIm * lastIm);
            (lastRe, lastIm) = (farRe, farIm);
        }

        // The scale of the weights, as the looks themselves show it; and looks at one and the same ring are few looks, not many.
        var likeness = stray > 0 ? Math.Clamp(alike / stray, 0, MostAlike) : 0;
        var above = Power(re, im) * sum / (Math.Max(1, stray / (count - 1)) * ((1 + likeness) / (1 - likeness)));
        if (!(above > Unsure))
        {
            return;
        }

        var part = Math.Min(1, (above - Unsure) / (Sure - Unsure)) / HumBasis.Response(StepsPerLook * (h + 1) * TurnsPerStep);
        (Re[h], Im[h]) = (re * part, im * part);
        IsAny = true;
    }

    // One over the power of what is no hum. What rings at the very place of a harmonic is not heard beside it, but it changes.
    private static double Weight(HumLook look, int h, double turnsPerStep)
    {
        var power = look.Beside[h];
        var turned = HumBasis.ChangePerTurn * StepsPerLook * (h + 1) * turnsPerStep;
        var change = Power(look.ChangeRe[h] - (turned * look.Im[h]), look.ChangeIm[h] + (turned * look.Re[h]));
        power += Louder * Math.Max(0, change - (Clear * power));
        return power > Nothing ? 1 / power : 0;
    }

    private static double[][] Rows(int count, int length) => [.. Enumerable.Range(0, count).Select(_ => new double[length])];

    private static double Power(double re, double im) => (re * re) + (im * im);

    private void SetTurns(int looks, int middle, double offHz)
    {
        for (var i = 0; i < looks; i++)
        {
            (_turnIm[i], _turnRe[i]) = Elementary.SinCos(-2 * Math.PI * offHz * _seconds * (i - middle));
        }
    }

    // Ready to turn the next harmonic.
    private void Turn(int looks, int h)
    {
        for (var i = 0; i < looks; i++)
        {
            var (re, im) = h == 0 ? (1, 0) : (_re[i], _im[i]);
            (_re[i], _im[i]) = ((re * _turnRe[i]) - (im * _turnIm[i]), (re * _turnIm[i]) + (im * _turnRe[i]));
        }
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
        SetTurns(looks.Length, middle, offHz);
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
}
