using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

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
    /// <summary>A gap below this may be set to zero; smaller ones become subnormal numbers, which processors handle slowly.</summary>
    public const double Negligible = 1e-150;

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

    /// <summary>1 − c.</summary>
    public readonly double Irreversible => _irreversible;

    /// <summary>Moves to the next field and returns the magnetisation.</summary>
    /// <param name="field">Effective field over a.</param>
    /// <param name="anhysteretic">The anhysteretic magnetisation at that field.</param>
    public double Next(double field, double anhysteretic)
    {
        var move = field - _field;
        var rise = anhysteretic - _anhysteretic;
        _field = field;
        _anhysteretic = anhysteretic;
        var half = Math.FusedMultiplyAdd(Math.Abs(move), _halfPerField, _halfShake);
        var step = 1 / (1 + half);
        var on = Math.FusedMultiplyAdd((1 - half) * step, _gap, rise * step);
        var off = Math.FusedMultiplyAdd(_offKeep, _gap, rise * _offStep);

        // The gap closes faster while it points the way the field moves. Rising, closing faster is the smaller outcome exactly
        // while the gap is positive, and falling the other way round: the choice is a comparison of outcomes.
        _gap = (move > 0 ? on < off : on > off) ? on : off;
        return Math.FusedMultiplyAdd(-_irreversible, _gap, anhysteretic);
    }

    /// <summary>The part of <see cref="Next"/> that does not depend on the gap, for as many samples as a vector has lanes.</summary>
    /// <remarks>The gap is followed in the direction the field moves, so that the next one is always the smaller of two outcomes:
    /// changes of sign are exact and cost the recursion nothing here.</remarks>
    /// <param name="move">Change of the field.</param>
    /// <param name="rise">Change of the anhysteretic magnetisation.</param>
    /// <param name="directionBefore">−0 where the field did not rise with the sample before, 0 where it did.</param>
    /// <param name="direction">The same of this sample.</param>
    /// <param name="keep">Part of the gap kept while it closes faster.</param>
    /// <param name="on">What is added to that.</param>
    /// <param name="offKeep">Part of the gap kept otherwise.</param>
    /// <param name="off">What is added to that.</param>
    /// <param name="weight">What the gap counts for in the magnetisation.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Prepare(
        Vector<double> move,
        Vector<double> rise,
        Vector<double> directionBefore,
        Vector<double> direction,
        out Vector<double> keep,
        out Vector<double> on,
        out Vector<double> offKeep,
        out Vector<double> off,
        out Vector<double> weight)
    {
        var half = Vector.FusedMultiplyAdd(Vector.Abs(move), new Vector<double>(_halfPerField), new Vector<double>(_halfShake));
        var step = Vector<double>.One / (Vector<double>.One + half);
        var turn = direction ^ directionBefore;
        keep = ((Vector<double>.One - half) * step) ^ turn;
        offKeep = new Vector<double>(_offKeep) ^ turn;
        var directed = rise ^ direction;
        on = directed * step;
        off = directed * new Vector<double>(_offStep);
        weight = new Vector<double>(-_irreversible) ^ direction;
    }

    /// <summary>−0 where the field does not rise, 0 where it does.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector<double> Direction(Vector<double> move) =>
        Vector.AndNot(new Vector<double>(-0.0), Vector.AsVectorDouble(Vector.GreaterThan(move, Vector<double>.Zero)));
}
