using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>What lanes can do, each lane against the runtime's own scalar; NaN, infinities and both zeros included.</summary>
public class LaneMemberTests
{
    private static readonly double[] Values =
    [
        0, -0.0, 0.5, -0.5, 1.5, 2.5, -2.5, 3.2, double.Epsilon, 1e300, double.NaN, double.PositiveInfinity, double.NegativeInfinity,
    ];

    [Fact]
    public void Lanes_of_every_width_do_what_the_scalar_does()
    {
        Check<Lane1>();
        Check<Lane2>();
        Check<Lane4>();
        Check<Lane8>();
    }

    private static void Check<T>()
        where T : struct, ILaneBits<T>
    {
        foreach (var a in Values)
        {
            foreach (var b in Values)
            {
                // The pair under test in each lane in turn, another beside it.
                for (var lane = 0; lane < T.Count; lane++)
                {
                    var (x, y) = (Beside<T>(a, lane, 7), Beside<T>(b, lane, 8));
                    AssertLane(a < b ? a : b, T.Lesser(x, y), lane);
                    AssertLane(a > b ? a : b, T.Greater(x, y), lane);
                    AssertLane(Math.Max(a, b), T.Max(x, y), lane);
                    AssertLane(Math.Abs(a), T.Abs(x), lane);
                    AssertLane(Math.Round(a), T.Round(x), lane);
                    AssertLane(a < b ? 1 : 0, T.AndBits(T.Less(x, y), T.Of(1)), lane);
                    AssertLane(a <= b ? 1 : 0, T.AndBits(T.LessOrEqual(x, y), T.Of(1)), lane);
                    Assert.Equal(a < b, T.AllLess(x, y));
                    Assert.Equal(BitConverter.DoubleToInt64Bits(a) != 0, T.AnyBits(Beside<T>(a, lane, 0)));
                    AssertBits(T.Count == 1 ? a : Math.Max(a, -1), T.Greatest(Beside<T>(a, lane, -1)));
                    AssertBits(T.Count == 1 ? a : Math.Min(a, 1), T.Least(Beside<T>(a, lane, 1)));
                }
            }
        }
    }

    private static T Beside<T>(double value, int lane, double others)
        where T : struct, ILaneBits<T>
    {
        var values = Enumerable.Repeat(others, 9).ToArray();
        values[lane + 1] = value;
        return T.Load(in values[0], 1);
    }

    private static void AssertLane<T>(double expected, T actual, int lane)
        where T : struct, ILaneBits<T>
    {
        var values = new double[9];
        actual.Store(ref values[0], 1);

        AssertBits(expected, values[lane + 1]);
    }

    private static void AssertBits(double expected, double actual) => Assert.Equal(NumericsSweep.Bits(expected), NumericsSweep.Bits(actual));
}
