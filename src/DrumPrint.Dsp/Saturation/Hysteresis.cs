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
    /// <summary>A gap below this is set to zero before it becomes a subnormal number, which processors handle slowly.</summary>
    private const double Negligible = 1e-150;

    private readonly double _halfPerField;
    private readonly double _halfShake;
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
        _halfShake = 0.5 * shake;
        _offStep = 1 / (1 + _halfShake);
        _offKeep = (1 - _halfShake) * _offStep;
        _irreversible = 1 - reversible;
    }

    /// <summary>Moves to the next field and returns the magnetisation.</summary>
    /// <param name="field">Effective field over a.</param>
    /// <param name="anhysteretic">The anhysteretic magnetisation at that field.</param>
    public double Next(double field, double anhysteretic)
    {
        var move = field - _field;
        var rise = anhysteretic - _anhysteretic;
        _field = field;
        _anhysteretic = anhysteretic;
        var half = (Math.Abs(move) * _halfPerField) + _halfShake;
        var step = 1 / (1 + half);
        var on = ((1 - half) * step * _gap) + (rise * step);
        var off = (_offKeep * _gap) + (rise * _offStep);

        // The gap closes faster while it points the way the field moves. Closing faster is the smaller outcome exactly when the gap is
        // positive, so the choice is a comparison of outcomes.
        _gap = (on < off) == (move > 0) ? on : off;
        return anhysteretic - (_irreversible * _gap);
    }

    /// <summary>Sets a gap that has faded away to zero.</summary>
    public void Flush() => _gap = Math.Abs(_gap) < Negligible ? 0 : _gap;
}
