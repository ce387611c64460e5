using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Mains;

/// <summary>Takes the hum out of one channel, step by step.</summary>
/// <remarks>Time is counted in steps. Where two of them meet, the hum is estimated from the stretches around; between them one estimate is faded
/// into the next. A wave of one period is made for each period of a step, and one is faded into the next. Where nothing was recorded, nothing
/// is taken out.</remarks>
internal sealed class HumChannel
{
    /// <summary>Steps from one search for the frequency to the next: mains move slowly.</summary>
    public const int StepsPerSearch = 4;

    private readonly HumBasis _basis;
    private readonly HumReader _reader;
    private readonly HumEstimator _estimator;
    private readonly int _around;
    private readonly double[][] _steps;
    private readonly HumLook[] _looks;
    private readonly HumLook[] _ordered;
    private readonly double[] _wave;
    private readonly double[] _nextWave;
    private readonly double[] _re;
    private readonly double[] _im;
    private double _turns;
    private bool _isAny;
    private bool _isWaveAny;
    private long _step;

    /// <param name="basis">The harmonics.</param>
    /// <param name="estimator">Finds the hum; one for each channel.</param>
    /// <param name="around">How many stretches count before and after each.</param>
    public HumChannel(HumBasis basis, HumEstimator estimator, int around)
    {
        (_basis, _estimator, _around) = (basis, estimator, around);
        _reader = new HumReader(basis);
        _steps = new double[around + 4][];
        for (var i = 0; i < _steps.Length; i++)
        {
            _steps[i] = new double[basis.Step];
        }

        _looks = new HumLook[(2 * around) + 1];
        _ordered = new HumLook[_looks.Length];
        for (var i = 0; i < _looks.Length; i++)
        {
            _looks[i] = new HumLook(basis.Harmonics);
        }

        (_wave, _nextWave) = (new double[basis.Period], new double[basis.Period]);
        (_re, _im) = (new double[basis.Harmonics], new double[basis.Harmonics]);
        Out = new double[basis.Step];
    }

    /// <summary>Steps by which what comes out lags.</summary>
    public int DelaySteps => _around + 2;

    /// <summary>Steps before one that have a part in it.</summary>
    public int MemorySteps => _around + 1 + StepsPerSearch;

    /// <summary>Where the step goes that comes in next.</summary>
    public double[] Newest => StepOf(_step);

    /// <summary>What has come through.</summary>
    public double[] Out { get; }

    /// <summary>How far each period of what has come through went down, linear: its level after over that before.</summary>
    public double[] Gains { get; } = new double[HumBasis.PeriodsPerStep];

    /// <summary>Takes in the step that was put into <see cref="Newest"/>.</summary>
    /// <returns>Whether a step of the sound has come through.</returns>
    public bool Next()
    {
        var newest = _step++;
        if (newest > 0)
        {
            // The stretch whose middle is where this step begins.
            _reader.Read(StepOf(newest - 1), StepOf(newest), _looks[newest % _looks.Length]);
        }

        // The estimate where the step that comes out ends.
        var at = newest - _around;
        if (at < 0)
        {
            return false;
        }

        var first = Math.Max(1, at - _around);
        var count = 0;
        for (var look = first; look <= newest; look++)
        {
            _ordered[count++] = _looks[look % _looks.Length];
        }

        _estimator.Estimate(_ordered.AsSpan(0, count), (int)(at - first), at % StepsPerSearch == 0);
        if (at > 0)
        {
            TakeOut(at - 1);
        }

        (_turns, _isAny) = (_estimator.TurnsPerStep, _estimator.IsAny);
        _estimator.Re.CopyTo(_re, 0);
        _estimator.Im.CopyTo(_im, 0);
        if (at == 0)
        {
            _isWaveAny = Make(0, _wave);
        }

        return at > 0;
    }

    private double[] StepOf(long step) => _steps[step % _steps.Length];

    private void TakeOut(long step)
    {
        StepOf(step).CopyTo(Out, 0);
        var period = _basis.Period;
        for (var i = 0; i < HumBasis.PeriodsPerStep; i++)
        {
            var isNextAny = Make((i + 1.0) / HumBasis.PeriodsPerStep, _nextWave);
            Gains[i] = 1;
            if (_isWaveAny || isNextAny)
            {
                var (from, to) = Recorded(step, i);
                var samples = Out.AsSpan(i * period, period);
                var (before, after) = (0.0, 0.0);
                for (var n = from; n < to; n++)
                {
                    before += samples[n] * samples[n];
                    samples[n] -= Math.FusedMultiplyAdd((double)n / period, _nextWave[n] - _wave[n], _wave[n]);
                    after += samples[n] * samples[n];
                }

                Gains[i] = after < before ? Math.Sqrt(after / before) : 1;
            }

            _nextWave.CopyTo(_wave, 0);
            _isWaveAny = isNextAny;
        }
    }

    // The hum's wave so far into the step that comes out; whether there is any.
    private bool Make(double part, double[] wave)
    {
        Array.Clear(wave);
        if (!_isAny && !_estimator.IsAny)
        {
            return false;
        }

        var fade = 0.5 - (0.5 * Elementary.Cos(Math.PI * part));
        for (var h = 0; h < _re.Length; h++)
        {
            var (re, im) = Turned(_re[h], _im[h], (1 - fade), (h + 1) * part * _turns);
            var (nextRe, nextIm) = Turned(_estimator.Re[h], _estimator.Im[h], fade, (h + 1) * (part - 1) * _estimator.TurnsPerStep);
            if (re + nextRe != 0)
            {
                Blend.Add(_basis.Cosines[h], re + nextRe, wave);
            }

            if (im + nextIm != 0)
            {
                Blend.Add(_basis.Sines[h], -(im + nextIm), wave);
            }
        }

        return true;
    }

    private static (double Re, double Im) Turned(double re, double im, double gain, double turns)
    {
        if ((re == 0 && im == 0) || gain == 0)
        {
            return (0, 0);
        }

        var (sin, cos) = Elementary.SinCos(2 * Math.PI * turns);
        return (gain * ((re * cos) - (im * sin)), gain * ((re * sin) + (im * cos)));
    }

    // Of a period what lies between silences of a whole period and more.
    private (int From, int To) Recorded(long step, int period)
    {
        var samples = Samples(step, period);
        var from = samples.IndexOfAnyExcept(0.0);
        if (from < 0)
        {
            return (0, 0);
        }

        var before = period > 0 ? Samples(step, period - 1) : step > 0 ? Samples(step - 1, HumBasis.PeriodsPerStep - 1) : default;
        var after = period + 1 < HumBasis.PeriodsPerStep ? Samples(step, period + 1) : Samples(step + 1, 0);
        return (before.IndexOfAnyExcept(0.0) < 0 ? from : 0, after.IndexOfAnyExcept(0.0) < 0 ? samples.LastIndexOfAnyExcept(0.0) + 1 : samples.Length);
    }

    private ReadOnlySpan<double> Samples(long step, int period) => StepOf(step).AsSpan(period * _basis.Period, _basis.Period);
}
