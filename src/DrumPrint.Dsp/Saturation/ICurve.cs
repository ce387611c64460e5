using System.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>A curve without memory: odd, slope 1 at zero, never beyond 1.</summary>
internal interface ICurve
{
    /// <summary>What <see cref="Mean"/> needs of each input by itself, computed once for the two means it is part of.</summary>
    Vector<double> Share(Vector<double> x);

    /// <summary>The curve's mean over the inputs between two values; its value where they are equal.</summary>
    /// <remarks>
    /// Taking the mean between successive samples is first-order antiderivative antialiasing (Parker, Zavalishin and Le Bivic,
    /// DAFx-16). It delays by half a sample. Each curve writes the divided difference of its integral in a form that
    /// does not cancel, so no threshold between two formulas is needed.
    /// </remarks>
    /// <param name="a">One value.</param>
    /// <param name="shareA">Its share.</param>
    /// <param name="b">The other.</param>
    /// <param name="shareB">Its share.</param>
    Vector<double> Mean(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB);

    /// <summary>Two means in a row, from <paramref name="a"/> to <paramref name="b"/> and on to <paramref name="c"/>.</summary>
    (Vector<double> First, Vector<double> Second) Means(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB, Vector<double> c, Vector<double> shareC);

    /// <summary>Slope of the curve at an input from −1 to 1.</summary>
    double Slope(double x);
}
