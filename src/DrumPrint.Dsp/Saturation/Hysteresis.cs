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
        var half = (Math.Abs(move) * _halfPerField) + _halfShake;
        var step = 1 / (1 + half);
        var on = ((1 - half) * step * _gap) + (rise * step);
        var off = (_offKeep * _gap) + (rise * _offStep);

        // The gap closes faster while it points the way the field moves. Rising, closing faster is the smaller outcome exactly
        // while the gap is positive, and falling the other way round: the choice is a comparison of outcomes.
        _gap = (move > 0 ? on < off : on > off) ? on : off;
        return anhysteretic - (_irreversible * _gap);
    }

    /// <summary>The part of <see cref="Next"/> that does not depend on the gap, for as many samples as a vector has lanes.</summary>
    /// <param name="move">Change of the field.</param>
    /// <param name="rise">Change of the anhysteretic magnetisation.</param>
    /// <param name="keep">Part of the gap kept while it closes faster.</param>
    /// <param name="on">What is added to that.</param>
    /// <param name="off">What is added to the part of the gap otherwise kept.</param>
    /// <param name="falling">−0 where the field does not rise, 0 where it does.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Prepare(
        Vector<double> move,
        Vector<double> rise,
        out Vector<double> keep,
        out Vector<double> on,
        out Vector<double> off,
        out Vector<double> falling)
    {
        var half = (Vector.Abs(move) * new Vector<double>(_halfPerField)) + new Vector<double>(_halfShake);
        var step = Vector<double>.One / (Vector<double>.One + half);
        keep = (Vector<double>.One - half) * step;
        on = rise * step;
        off = rise * new Vector<double>(_offStep);
        falling = Vector.AndNot(new Vector<double>(-0.0), Vector.AsVectorDouble(Vector.GreaterThan(move, Vector<double>.Zero)));
    }

    /// <summary>The rest of <see cref="Next"/>, bit for bit: the gap after one sample.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly double Close(double gap, double keep, double on, double off, double falling)
    {
        // Scalars held in vectors: a choice between two vectors takes no branch, and this one cannot be foretold.
        var before = Vector128.CreateScalarUnsafe(gap);
        var faster = (Vector128.CreateScalarUnsafe(keep) * before) + Vector128.CreateScalarUnsafe(on);
        var slower = (Vector128.CreateScalarUnsafe(_offKeep) * before) + Vector128.CreateScalarUnsafe(off);
        var sign = Vector128.CreateScalarUnsafe(falling);
        return Vector128.ConditionalSelect(Vector128.LessThan(faster ^ sign, slower ^ sign), faster, slower).ToScalar();
    }
}
