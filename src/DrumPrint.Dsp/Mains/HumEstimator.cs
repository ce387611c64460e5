namespace DrumPrint.Dsp.Mains;

/// <summary>From what many stretches hold of each harmonic to the hum that is in all of them.</summary>
/// <remarks>
/// <para>Hum stays as it is for seconds; hits come and go. Each stretch counts by one over the power of the drums in it: the weighted least
/// squares of A. C. Aitken, "On Least Squares and Linear Combination of Observations", Proc. R. Soc. Edinburgh 55, 1935 (from memory). So the
/// hum is learnt between the hits.</para>
/// <para>The frequency is sought first: see <see cref="HumSearch"/>.</para>
/// <para>A harmonic counts as hum only where it stands well above what the drums alone would leave, and is there all the time: see
/// <see cref="HumSteadiness"/>.</para>
/// </remarks>
internal sealed class HumEstimator
{
    // How far above the drums' own part a harmonic's power stands: from here on some of it is taken out, from there on all.
    private const double Unsure = 28;
    private const double Sure = 34;

    // The window's first zero lies at two.
    private const double MostTurns = 1;

    // So alike can what strays in two looks be that follow each other.
    private const double MostAlike = 0.95;

    private readonly HumSearch _search;
    private readonly HumSteadiness _steadiness;
    private readonly double[] _turnRe;
    private readonly double[] _turnIm;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double[] _atRe;
    private readonly double[] _atIm;
    private readonly double[] _own;

    /// <param name="basis">The harmonics.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="freqHz">Where the mains should be.</param>
    /// <param name="trackHz">How far off they may be.</param>
    /// <param name="looks">How many stretches count at most.</param>
    public HumEstimator(HumBasis basis, int sampleRate, double freqHz, double trackHz, int looks)
    {
        _search = new HumSearch(basis, sampleRate, freqHz, trackHz, looks);
        _steadiness = new HumSteadiness(looks);
        (_turnRe, _turnIm, _re, _im) = (new double[looks], new double[looks], new double[looks], new double[looks]);
        (_atRe, _atIm, _own) = (new double[looks], new double[looks], new double[looks]);
        (Re, Im) = (new double[basis.Harmonics], new double[basis.Harmonics]);
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
            TurnsPerStep = _search.Find(looks, middle);
        }

        HumSearch.Turns(TurnsPerStep, middle, _turnRe.AsSpan(0, looks.Length), _turnIm);
        IsAny = false;
        for (var h = 0; h < Re.Length; h++)
        {
            Turn(looks.Length, h);
            Keep(looks, h);
        }
    }

    // Weighs all looks anew, turns them to where the mains are, and asks whether what they have in common is hum.
    private void Keep(ReadOnlySpan<HumLook> looks, int h)
    {
        (Re[h], Im[h]) = (0, 0);

        // A sine that gains a turn and more over a stretch lies outside what the window hears.
        var turns = HumBasis.StepsPerLook * (h + 1) * TurnsPerStep;
        if (Math.Abs(turns) >= MostTurns)
        {
            return;
        }

        var count = 0;
        var (sum, re, im) = (0.0, 0.0, 0.0);
        for (var i = 0; i < looks.Length; i++)
        {
            var (x, y, weight) = (looks[i].Re[h], looks[i].Im[h], looks[i].Weight(h, TurnsPerStep));
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

        var part = Steady(looks.Length, count, Power(re, im)) * Math.Min(1, (above - Unsure) / (Sure - Unsure)) / HumBasis.Response(turns);
        (Re[h], Im[h]) = (re * part, im * part);
        IsAny |= part > 0;
    }

    // How far what the looks have in common is there all the time.
    private double Steady(int looks, int count, double power)
    {
        _steadiness.Clear();
        for (var i = 0; i < looks; i++)
        {
            if (_own[i] > 0)
            {
                _steadiness.Add(Math.Sqrt(Power(_atRe[i], _atIm[i]) / power), _own[i] * power);
            }
        }

        return _steadiness.Part(count);
    }

    private static double Power(double re, double im) => (re * re) + (im * im);

    // Ready to turn the next harmonic.
    private void Turn(int looks, int h)
    {
        for (var i = 0; i < looks; i++)
        {
            var (re, im) = h == 0 ? (1, 0) : (_re[i], _im[i]);
            (_re[i], _im[i]) = ((re * _turnRe[i]) - (im * _turnIm[i]), (re * _turnIm[i]) + (im * _turnRe[i]));
        }
    }
}
