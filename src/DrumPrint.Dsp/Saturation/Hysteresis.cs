namespace DrumPrint.Dsp.Saturation;

/// <summary>The memory of a magnetic medium after Jiles and Atherton, with a bias that shakes part of it loose.</summary>
/// <remarks>
/// <para>Jiles and Atherton (1986): the irreversible part of the magnetisation follows the anhysteretic curve as the effective field
/// moves, dMirr/dHe = (Man − Mirr)/(δk), δ the direction of the field and nothing while Man − Mirr points against it;
/// M = c·Man + (1 − c)·Mirr (the 1992 convention of c). Fields are stated in units of the curve's shape parameter a and
/// magnetisation in units of saturation; the input is the effective field He = H + αM, so α does not appear.</para>
/// <para>Our own addition, standing in for the AC bias of a recorder: (Man − Mirr)/τ per second on top. It takes the
/// remanence out, makes small signals linear and leaves narrow, level-dependent loops. Without it the model is the
/// published one.</para>
/// <para>Solved for the gap D = Man − Mirr by the trapezoidal rule, which has a closed form here: no iteration.</para>
/// </remarks>
internal struct Hysteresis
{
    private readonly double _halfPerField;
    private readonly double _wholeShake;
    private readonly double _offKeep;
    private readonly double _offStep;
    private readonly double _irreversible;
    private double _field;
    private double _anhysteretic;
    private double _gap;

    /// <param name="pinning">k/a.</param>
    /// <param name="reversible">c, 0 to 1.</param>
    /// <param name="shake">Step over τ; 0 without bias.</param>
    public Hysteresis(double pinning, double reversible, double shake)
    {
        _halfPerField = 0.5 / pinning;
        _wholeShake = 1 + (0.5 * shake);
        _offStep = 1 / _wholeShake;
        _offKeep = Math.FusedMultiplyAdd(2, _offStep, -1);
        _irreversible = 1 - reversible;
    }

    /// <summary>Half a step's closing of the gap for each unit the field moves.</summary>
    public readonly double HalfPerField => _halfPerField;

    /// <summary>1 and half a step's closing of the gap by the bias.</summary>
    public readonly double WholeShake => _wholeShake;

    /// <summary>What is kept of the gap where the bias alone closes it.</summary>
    public readonly double OffKeep => _offKeep;

    /// <summary>What a change of the anhysteretic magnetisation counts for there.</summary>
    public readonly double OffStep => _offStep;

    /// <summary>1 − c.</summary>
    public readonly double Irreversible => _irreversible;

    /// <summary>Moves to the next field and returns the magnetisation.</summary>
    /// <param name="field">Effective field over a.</param>
    /// <param name="anhysteretic">The anhysteretic magnetisation at that field.</param>
    public double Next(double field, double anhysteretic) => Next(field, anhysteretic, 1);

    /// <summary>Moves to the next field and returns the magnetisation.</summary>
    /// <param name="field">Effective field over a.</param>
    /// <param name="top">The anhysteretic magnetisation at that field, times <paramref name="bottom"/>.</param>
    /// <param name="bottom">Above zero. One division serves the fraction and the step.</param>
    public double Next(double field, double top, double bottom)
    {
        var move = field - _field;
        var whole = Math.FusedMultiplyAdd(Math.Abs(move), _halfPerField, _wholeShake);
        var part = 1 / (bottom * whole);
        var anhysteretic = top * (whole * part);
        var step = bottom * part;
        var rise = anhysteretic - _anhysteretic;
        _field = field;
        _anhysteretic = anhysteretic;

        // (1 − half)/(1 + half) = 2/(1 + half) − 1.
        var on = Math.FusedMultiplyAdd(Math.FusedMultiplyAdd(2, step, -1), _gap, rise * step);
        var off = Math.FusedMultiplyAdd(_offKeep, _gap, rise * _offStep);

        // The gap closes faster while it points the way the field moves. Rising, closing faster is the smaller outcome exactly
        // while the gap is positive, and falling the other way round: the choice is a comparison of outcomes.
        _gap = (move > 0 ? on < off : on > off) ? on : off;
        return Math.FusedMultiplyAdd(-_irreversible, _gap, anhysteretic);
    }
}
