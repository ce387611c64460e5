using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Special values, as IEEE 754-2019 section 9.2.1 gives them.</summary>
public class ElementarySpecialValueTests
{
    private const double Inf = double.PositiveInfinity;
    private const double NaN = double.NaN;

    public static TheoryData<string, double, double> Values => new()
    {
        { "Exp", 0, 1 }, { "Exp", -0.0, 1 }, { "Exp", Inf, Inf }, { "Exp", -Inf, 0 }, { "Exp", 709.79, Inf }, { "Exp", -745.14, 0 }, { "Exp", NaN, NaN },
        { "Exp2", 0, 1 }, { "Exp2", Inf, Inf }, { "Exp2", -Inf, 0 }, { "Exp2", 1024, Inf }, { "Exp2", -1074, double.Epsilon }, { "Exp2", -1075.01, 0 }, { "Exp2", 10, 1024 }, { "Exp2", NaN, NaN },
        { "Expm1", 0, 0 }, { "Expm1", -0.0, -0.0 }, { "Expm1", Inf, Inf }, { "Expm1", -Inf, -1 }, { "Expm1", -50, -1 }, { "Expm1", 710, Inf }, { "Expm1", NaN, NaN },
        { "Log", 1, 0 }, { "Log", 0, -Inf }, { "Log", -0.0, -Inf }, { "Log", -1, NaN }, { "Log", -Inf, NaN }, { "Log", Inf, Inf }, { "Log", NaN, NaN },
        { "Log2", 1, 0 }, { "Log2", 8, 3 }, { "Log2", double.Epsilon, -1074 }, { "Log2", 0, -Inf }, { "Log2", -1, NaN }, { "Log2", Inf, Inf }, { "Log2", NaN, NaN },
        { "Log10", 1, 0 }, { "Log10", 1000, 3 }, { "Log10", 1e22, 22 }, { "Log10", 0, -Inf }, { "Log10", -1, NaN }, { "Log10", Inf, Inf }, { "Log10", NaN, NaN },
        { "Log1p", 0, 0 }, { "Log1p", -0.0, -0.0 }, { "Log1p", -1, -Inf }, { "Log1p", -1.5, NaN }, { "Log1p", Inf, Inf }, { "Log1p", NaN, NaN },
        { "Sin", 0, 0 }, { "Sin", -0.0, -0.0 }, { "Sin", Inf, NaN }, { "Sin", -Inf, NaN }, { "Sin", NaN, NaN },
        { "Cos", 0, 1 }, { "Cos", Inf, NaN }, { "Cos", -Inf, NaN }, { "Cos", NaN, NaN },
        { "Tan", 0, 0 }, { "Tan", -0.0, -0.0 }, { "Tan", Inf, NaN }, { "Tan", NaN, NaN },
        { "Tanh", 0, 0 }, { "Tanh", -0.0, -0.0 }, { "Tanh", Inf, 1 }, { "Tanh", -Inf, -1 }, { "Tanh", -1000, -1 }, { "Tanh", NaN, NaN },
        { "Atan", 0, 0 }, { "Atan", -0.0, -0.0 }, { "Atan", Inf, Math.PI / 2 }, { "Atan", -Inf, -Math.PI / 2 }, { "Atan", 1, Math.PI / 4 }, { "Atan", NaN, NaN },
        { "BesselI0", 0, 1 }, { "BesselI0", Inf, Inf }, { "BesselI0", -Inf, Inf }, { "BesselI0", NaN, NaN },
        { "ToGain", 0, 1 }, { "ToGain", -Inf, 0 }, { "ToGain", Inf, Inf }, { "ToGain", 20, 10 }, { "ToGain", 120, 1e6 }, { "ToGain", -20, 0.1 }, { "ToGain", -120, 1e-6 }, { "ToGain", NaN, NaN },
        { "FromGain", 1, 0 }, { "FromGain", 0, -Inf }, { "FromGain", Inf, Inf }, { "FromGain", 10, 20 }, { "FromGain", 1e6, 120 }, { "FromGain", 0.1, -20 }, { "FromGain", -1, NaN }, { "FromGain", NaN, NaN },
    };

    public static TheoryData<double, double, double> Powers => new()
    {
        { NaN, 0, 1 }, { 0, 0, 1 }, { Inf, 0, 1 }, { 1, NaN, 1 }, { 1, Inf, 1 }, { -1, Inf, 1 }, { -1, -Inf, 1 },
        { NaN, 1, NaN }, { 2, NaN, NaN }, { -2, 0.5, NaN }, { -2, 2, 4 }, { -2, 3, -8 }, { -2, -1, -0.5 },
        { 0, 3, 0 }, { -0.0, 3, -0.0 }, { -0.0, 2, 0 }, { 0, -2, Inf }, { -0.0, -3, -Inf }, { -0.0, 0.5, 0 },
        { Inf, 2, Inf }, { Inf, -2, 0 }, { -Inf, 3, -Inf }, { -Inf, 2, Inf }, { -Inf, -3, -0.0 }, { -Inf, 0.5, Inf },
        { 2, Inf, Inf }, { 2, -Inf, 0 }, { 0.5, Inf, 0 }, { 0.5, -Inf, Inf },
        { 10, 309, Inf }, { 10, -324, 0 }, { 2, -1074, double.Epsilon }, { 2, 10, 1024 }, { 3, 20, 3486784401 }, { 2, 1e300, Inf }, { 2, -1e300, 0 },
        { -1, 9007199254740992, 1 }, { -1, 9007199254740991, -1 },
    };

    [Theory]
    [MemberData(nameof(Values))]
    public void Special_values_are_exact(string function, double x, double expected) =>
        AssertSame(expected, ElementaryTable.Functions[function](x, 0));

    [Theory]
    [MemberData(nameof(Powers))]
    public void Special_powers_are_exact(double x, double y, double expected) => AssertSame(expected, Elementary.Pow(x, y));

    [Theory]
    [InlineData("Expm1")]
    [InlineData("Log1p")]
    [InlineData("Sin")]
    [InlineData("Tan")]
    [InlineData("Tanh")]
    [InlineData("Atan")]
    public void The_smallest_numbers_come_back_unchanged(string function)
    {
        foreach (var x in new[] { double.Epsilon, -double.Epsilon, 3e-310, -2.2250738585072014e-308 })
        {
            AssertSame(x, ElementaryTable.Functions[function](x, 0));
        }
    }

    private static void AssertSame(double expected, double actual)
    {
        if (double.IsNaN(expected))
        {
            Assert.True(double.IsNaN(actual), $"{actual} is not NaN");
            return;
        }

        Assert.Equal(BitConverter.DoubleToInt64Bits(expected), BitConverter.DoubleToInt64Bits(actual));
    }
}
