using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The memory of a magnetic medium after Jiles and Atherton, with a bias that shakes part of it loose.</summary>
/// <remarks>
/// <para>Jiles and Atherton (1986): the irreversible part of the magnetisation follows the anhysteretic curve as the effective
/// field moves, dMirr/dHe = (Man − Mirr)/(δk). Here δ is the direction of the field; nothing moves while Man − Mirr points
/// against it. M = c·Man + (1 − c)·Mirr (the 1992 convention of c). Fields are stated in units of the curve's shape parameter a,
/// and magnetisation in units of saturation. The input is the effective field He = H + αM, so α does not appear.</para>
/// <para>Our own addition, standing in for the AC bias of a recorder: (Man − Mirr)/τ per second on top. It takes the
/// remanence out, makes small signals linear and leaves narrow, level-dependent loops. Without it the model is the
/// published one.</para>
/// <para>Over a step the gap closes at one rate λ. The rate is what the bias does in the step, and what the field does by moving
/// in the gap's direction. That is all of the field's way or none of it. Where the field turns in the step, it is a part of it.
/// Let m be the mean of the curve on the way. Let M be its mean weighted with the place s on it, from −½ to ½. Let g = m − Mirr
/// at the start. Then Mirr ends at m − E·g + λ²K·M. E = 1/(1 + λ + λ²/2 + λ³/6) is e^−λ to third order. Like it, E is between 1
/// and 0 however far a step goes. K = (1 + 2λ + 3λ²/2)E² is the weight of M to as many orders. K dies away where the step is too
/// long for it. The equation itself, integrated, then gives two means. The mean of Mirr over the step is m − Φ·g − λK·M, with Φ =
/// (1 + λ/2 + λ²/6)E. Its mean weighted with s is M + Ψ·g − (1 + λ/2)K·M, with Ψ = (λ + λ²)E/12.</para>
/// </remarks>
internal struct Hysteresis
{
    private double _field;
    private double _curve;
    private double _slope;
    private double _kept;

    /// <param name="pinning">k/a.</param>
    /// <param name="reversible">c, 0 to 1.</param>
    /// <param name="shake">Step over τ; 0 without bias.</param>
    public Hysteresis(double pinning, double reversible, double shake)
    {
        PerField = 1 / pinning;
        Shake = shake;
        Irreversible = 1 - reversible;
        _slope = 1.0 / 3;
    }

    /// <summary>λ for each unit the field moves.</summary>
    public double PerField { get; }

    /// <summary>λ by the bias alone.</summary>
    public double Shake { get; }

    /// <summary>1 − c.</summary>
    public double Irreversible { get; }

    /// <summary>1/E.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Closing<T>(T rate)
        where T : struct, ILaneBits<T> => T.Fma(T.Fma(T.Fma(rate, 1.0 / 6, 0.5), rate, 1), rate, 1);

    /// <summary>Φ.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T OfMean<T>(T rate, T left)
        where T : struct, ILaneBits<T> => T.Fma(T.Fma(rate, 1.0 / 6, 0.5), rate, 1) * left;

    /// <summary>Ψ.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T OfTilt<T>(T rate, T left)
        where T : struct, ILaneBits<T> => T.Fma(rate, rate, rate) * (left * (1.0 / 12));

    /// <summary>K.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T OfLate<T>(T rate, T left)
        where T : struct, ILaneBits<T> => T.Fma(T.Fma(rate, 1.5, 2), rate, 1) * (left * left);

    /// <summary>Where Mirr ends, less E times where it starts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Target<T>(T rate, T left, T mean, T tilt)
        where T : struct, ILaneBits<T> => T.Fma(OfLate(rate, left) * tilt, rate * rate, T.Fma(-left, mean, mean));

    /// <summary>Moves to the next field, no more than ½ away and on an even way, and returns the magnetisation there.</summary>
    /// <param name="field">Effective field over a.</param>
    public double Next(double field)
    {
        Lane1 to = field;
        Langevin.Fraction(in to, out var top, out var bottom);
        var ratio = top / bottom;
        var curve = to * ratio;
        var slope = LangevinWay.Slope(curve, ratio);
        var move = to - _field;
        LangevinWay.OfShort<Lane1>(move, 0, _curve, curve, _slope, slope, out var mean, out var tilt);

        // Closing faster leads further in the field's direction exactly while the gap points that way.
        var (fast, slow) = (Outcome(Shake + (Math.Abs(move.Value) * PerField), _kept), Outcome(Shake, _kept));
        _kept = move.Value > 0 ? Math.Max(fast, slow) : Math.Min(fast, slow);
        (_field, _curve, _slope) = (field, curve.Value, slope.Value);
        return _curve - (Irreversible * (_curve - _kept));

        double Outcome(Lane1 rate, Lane1 kept)
        {
            var left = (Lane1)1 / Closing(rate);
            return Lane1.Fma(left, kept, Target(rate, left, mean, tilt)).Value;
        }
    }
}
