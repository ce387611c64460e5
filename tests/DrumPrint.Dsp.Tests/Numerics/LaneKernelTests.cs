using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Every kernel in 2, 4 and 8 lanes against the same kernel in one: the same bits, whatever is left over at the end.</summary>
public class LaneKernelTests
{
    // Past eight rows of eight lanes, so that every loop of every kernel leaves every remainder.
    private const int Longest = 75;

    private static readonly double[] Edges =
    [
        0, -0.0, double.Epsilon, -double.Epsilon, 1e-310, -1e-310, 1, -1, 0.5, -0.5, 1.5, 2.5, 1e-30, 1e300, -1e300,
        double.MaxValue, double.MinValue, double.NaN, double.PositiveInfinity, double.NegativeInfinity,
    ];

    public static TheoryData<string> Names => new(LaneTrials.All.Keys);

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_width_and_remainder_gives_the_bits_of_one_lane(string name)
    {
        var trial = LaneTrials.All[name];
        for (var length = 0; length <= Longest; length++)
        {
            AssertAgrees(trial, Signal(length, 1), Signal(length, 2), Signal(length, 3));
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Edges_of_the_numbers_keep_the_bits_of_one_lane(string name)
    {
        var trial = LaneTrials.All[name];
        foreach (var length in (int[])[19, 64, 71])
        {
            for (var turn = 0; turn < Edges.Length; turn++)
            {
                AssertAgrees(trial, Turned(length, turn), Turned(length, 3 * turn), Turned(length, 7));

                // One of them alone among ordinary numbers, in each lane and left over.
                var alone = Signal(length, 1);
                alone[turn % length] = trial.Allowed(Edges[turn]);
                AssertAgrees(trial, alone, Signal(length, 2), Signal(length, 3));
            }
        }

        double[] Turned(int length, int turn) => [.. Enumerable.Range(0, length).Select(i => trial.Allowed(Edges[((i * (turn + 1)) + turn) % Edges.Length]))];
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(15)]
    [InlineData(16)]
    [InlineData(17)]
    public void A_whole_length_holds_the_length_in_as_few_lanes_as_it_can(int length)
    {
        var whole = LaneWidth.Whole(length);

        Assert.InRange(whole, length, length + LaneWidth.Usual - 1);
        Assert.Equal(0, whole % LaneWidth.Usual);
    }

    private static void AssertAgrees(LaneTrial trial, double[] a, double[] b, double[] c)
    {
        var expected = trial.One(a, b, c);
        foreach (var (lanes, form) in (IEnumerable<(int, LaneTrial.Form)>)[(2, trial.Two), (4, trial.Four), (8, trial.Eight)])
        {
            var actual = form(a, b, c);
            Assert.Equal(expected.Length, actual.Length);
            for (var i = 0; i < expected.Length; i++)
            {
                Assert.True(
                    NumericsSweep.Bits(expected[i]) == NumericsSweep.Bits(actual[i]),
                    $"{lanes} lanes, number {i} of {a.Length}: {actual[i]:R} instead of {expected[i]:R}");
            }
        }
    }

    private static double[] Signal(int length, ulong seed) => Support.Signals.Noise(length, seed);
}
