using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>A curve without memory: odd, slope 1 at zero, never beyond 1; and what it comes to on the way from one value to another.</summary>
/// <remarks>The way runs evenly from <c>a</c> to <c>b</c>; s is the place on it from −½ to ½. Every figure is an integral along the
/// way, written so that nothing cancels: no threshold between two formulas is needed.</remarks>
internal interface ICurve
{
    /// <summary>The input that <see cref="Way"/> counts as 1, and the output too.</summary>
    static abstract double Knee { get; }

    /// <summary>What <see cref="Way"/> needs of each value by itself, computed once for the two ways it is an end of.</summary>
    static abstract T Share<T>(T x)
        where T : struct, ILaneBits<T>;

    /// <summary>Follows the curve along a way.</summary>
    /// <param name="a">Where the way begins.</param>
    /// <param name="shareA">Its share.</param>
    /// <param name="b">Where it ends.</param>
    /// <param name="shareB">Its share.</param>
    /// <param name="d">b − a.</param>
    /// <param name="mean">The curve's mean: the divided difference of its antiderivative.</param>
    /// <param name="slope">A quarter of its slope weighted with ¼ − s²: 1/24 where the curve is straight.</param>
    /// <param name="bend">A sixth of its slope weighted with s(¼ − s²): what the slope gains on the way.</param>
    static abstract void Way<T>(T a, T shareA, T b, T shareB, T d, out T mean, out T slope, out T bend)
        where T : struct, ILaneBits<T>;

    /// <summary>Slope of the curve at an input from −1 to 1.</summary>
    static abstract double Slope(double x);
}
