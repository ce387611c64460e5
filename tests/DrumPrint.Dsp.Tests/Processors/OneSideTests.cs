using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

/// <summary>Processors that work on a part of a stereo signal.</summary>
public sealed class OneSideTests
{
    private static readonly double[] Left = [.. new double[200], .. Signals.Hits(8000, 3000, 900, seed: 1, level: 0.8)];
    private static readonly double[] Right = [.. new double[200], .. Signals.Hits(8000, 2500, 700, seed: 2, level: 0.6)];

    private static Dictionary<string, (ProcessorDefinition Definition, ChoiceParameter On, (Parameter, object)[] Values)> All { get; } = new()
    {
        ["compress"] = (Compress.Definition, Compress.On, [Compress.Threshold.To(-30), Compress.Attack.To(2)]),
        ["saturate"] = (Saturate.Definition, Saturate.On, [Saturate.Drive.To(12)]),
        ["phase"] = (Phase.Definition, Phase.On, [Phase.AllPass.To(300), Phase.Turn.To(30)]),
    };

    public static TheoryData<string, string> Cases
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var key in All.Keys)
            {
                foreach (var on in new[] { "mid", "side", "left", "right" })
                {
                    data.Add(key, on);
                }
            }

            return data;
        }
    }

    // What the processor makes of that part by itself, and the other part as it came.
    [Theory]
    [MemberData(nameof(Cases))]
    public void One_part_goes_through_and_the_other_passes(string key, string on)
    {
        double[][] parts = on is "left" or "right" ? [Left, Right] : [[.. Left.Zip(Right, (l, r) => (l + r) / 2)], [.. Left.Zip(Right, (l, r) => (l - r) / 2)]];
        var own = on is "left" or "mid" ? 0 : 1;
        parts[own] = Through(key, "both", [parts[own]])[0];
        double[][] expected = on is "left" or "right" ? parts : [[.. parts[0].Zip(parts[1], (m, s) => m + s)], [.. parts[0].Zip(parts[1], (m, s) => m - s)]];

        var output = Through(key, on, [Left, Right]);

        for (var channel = 0; channel < 2; channel++)
        {
            for (var n = 0; n < Left.Length; n++)
            {
                Assert.Equal(expected[channel][n], output[channel][n], FilterTolerance.ThereAndBack);
            }
        }
    }

    [Theory]
    [InlineData("compress")]
    [InlineData("saturate")]
    [InlineData("phase")]
    public void A_part_of_a_mono_signal_is_refused(string key)
    {
        var problem = Assert.Throws<SettingsException>(() => Through(key, "side", [Left]));

        Assert.Equal("on", problem.Parameter!.Key);
        Assert.Contains("needs a stereo signal; this one is mono", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_turned_down_is_told_for_the_part_too()
    {
        var step = Compress.Definition.With(Compress.On.To("mid"), Compress.Threshold.To(-40), Compress.Ratio.To(10));
        var processor = step.Definition.Create(step.Settings, new ProcessorContext(new AudioFormat(48000, 2), Left.Length));

        Run.Through(processor, [Left, Right], 2);

        var lowest = float.PositiveInfinity;
        foreach (var gain in Assert.IsAssignableFrom<IGainReducer>(processor).GainCurve.LowestGain)
        {
            lowest = Math.Min(lowest, gain);
        }

        Assert.InRange(lowest, 0, 0.5);
    }

    private static double[][] Through(string key, string on, double[][] input)
    {
        var (definition, parameter, values) = All[key];
        return WholeSignal.Through(input, Run.SampleRate, definition.With([.. values, parameter.To(on)]));
    }
}
