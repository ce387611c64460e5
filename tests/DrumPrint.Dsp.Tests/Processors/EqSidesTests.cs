using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class EqSidesTests
{
    private static readonly double[] Left = Signals.Noise(6000, 1, 0.5);
    private static readonly double[] Right = Signals.Noise(6000, 2, 0.5);

    public static TheoryData<string> Phases => ["minimum", "linear"];

    [Theory]
    [MemberData(nameof(Phases))]
    public void A_band_without_gain_on_mid_or_side_is_a_null(string phase)
    {
        var output = Through(phase, [Left, Right], Bell(300, 0, "mid"), Bell(5000, 0, "side"));

        AssertNear([Left, Right], output, FilterTolerance.ThereAndBack);
    }

    [Theory]
    [InlineData("mid", 1)]
    [InlineData("side", -1)]
    public void A_band_on_mid_or_side_leaves_the_other_as_it_is(string on, double sign)
    {
        double[] other = [.. Left.Select(x => -sign * x)];
        double[] own = [.. Left.Select(x => sign * x)];

        AssertNear([Left, other], Through("minimum", [Left, other], Bell(400, 12, on)), FilterTolerance.ThereAndBack);
        AssertNear(Through("minimum", [Left, own], Bell(400, 12, "both")), Through("minimum", [Left, own], Bell(400, 12, on)), FilterTolerance.ThereAndBack);
    }

    [Theory]
    [MemberData(nameof(Phases))]
    public void A_band_on_the_left_leaves_the_right_as_it_is(string phase)
    {
        var output = Through(phase, [Left, Right], Bell(400, 12, "left"));

        AssertNear([Through(phase, [Left], Bell(400, 12, "both"))[0], Right], output, FilterTolerance.ThereAndBack);
    }

    // What an equaliser for one channel makes of middle and side, each by itself.
    [Theory]
    [MemberData(nameof(Phases))]
    public void Bands_on_mid_and_side_and_both_do_as_separate_equalisers_do(string phase)
    {
        double[] mid = [.. Left.Zip(Right, (l, r) => (l + r) / 2)];
        double[] side = [.. Left.Zip(Right, (l, r) => (l - r) / 2)];

        var output = Through(phase, [Left, Right], Bell(250, -6, "mid"), Bell(2500, 3, "both"), Bell(7000, 5, "side"));

        var m = Through(phase, [mid], Bell(250, -6, "both"), Bell(2500, 3, "both"))[0];
        var s = Through(phase, [side], Bell(2500, 3, "both"), Bell(7000, 5, "both"))[0];
        AssertNear([[.. m.Zip(s, (a, b) => a + b)], [.. m.Zip(s, (a, b) => a - b)]], output, phase == "minimum" ? FilterTolerance.Undone : FilterTolerance.LinearLevels);
    }

    [Fact]
    public void Bands_on_left_and_then_on_mid_do_as_two_equalisers_in_a_row_do()
    {
        // What a filter lets sound before the first frame is cut off, so nothing may lie there.
        double[][] input = [[.. new double[100], .. Left], [.. new double[100], .. Right]];

        var output = Through("minimum", input, Bell(400, 9, "left"), Bell(900, -9, "mid"));

        AssertNear(Through("minimum", Through("minimum", input, Bell(400, 9, "left")), Bell(900, -9, "mid")), output, FilterTolerance.Undone);
    }

    [Theory]
    [InlineData("mid")]
    [InlineData("right")]
    public void A_side_of_a_mono_signal_is_refused(string on)
    {
        var problem = Assert.Throws<SettingsException>(() => Through("minimum", [Left], Bell(400, 9, on)));

        Assert.Equal("on", problem.Parameter!.Key);
        Assert.Contains($"'on' is {on}, which needs a stereo signal", problem.Message, StringComparison.Ordinal);
    }

    private static Item Bell(double freq, double gain, string on) => Eq.Bell.With(Eq.Bell.Freq.To(freq), Eq.Bell.Gain.To(gain), Eq.Bell.On.To(on));

    private static double[][] Through(string phase, double[][] input, params Item[] bands) =>
        WholeSignal.Through(input, Run.SampleRate, Eq.Definition.With(Eq.Phase.To(phase), Eq.Bands.To(bands)));

    private static void AssertNear(double[][] expected, double[][] actual, double tolerance)
    {
        for (var channel = 0; channel < expected.Length; channel++)
        {
            for (var n = 0; n < Left.Length; n++)
            {
                Assert.Equal(expected[channel][n], actual[channel][n], tolerance);
            }
        }
    }
}
