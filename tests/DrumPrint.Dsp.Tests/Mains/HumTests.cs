using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Mains;

/// <summary>Hum against microphones whose hum is known. All bars are own ones.</summary>
public sealed class HumTests
{
    private const double HumDb = -46;

    public static TheoryData<string> Drums => [.. HumScene.Drums.Keys];

    public static TheoryData<double, double, double, double> InTime
    {
        get
        {
            var data = new TheoryData<double, double, double, double>();
            foreach (var (everyS, decayS) in new[] { (0.4, 0.15), (0.5, 0.1), (0.5, 0.3), (1, 0.15) })
            {
                foreach (var unevenS in new[] { 0, 0.003, 0.008 })
                {
                    data.Add(50, everyS, decayS, unevenS);
                    data.Add(100, everyS, decayS, unevenS);
                }

                data.Add(51, everyS, Math.Min(decayS, 0.15), 0.003);
            }

            return data;
        }
    }

    [Theory]
    [InlineData("noise alone", 48000, 50.03, 35)]
    [InlineData("noise alone", 44100, 59.95, 35)]
    [InlineData("noise alone", 96000, 49.92, 30)]
    [InlineData("room with kick and snare", 48000, 50.03, 25)]
    [InlineData("snare", 48000, 50.03, 15)]
    [InlineData("snare", 44100, 60, 15)]
    [InlineData("kick at 52 Hz", 48000, 49.92, 20)]
    [InlineData("kick at 50 Hz", 48000, 50.03, 10)]
    public void Hum_goes_down_and_the_drum_stays(string drum, int sampleRate, double freqHz, double leastDb)
    {
        var scene = new HumScene(sampleRate, HumScene.Drums[drum](sampleRate), HumScene.HumOf(sampleRate, freqHz, HumDb));

        Assert.InRange(scene.LoweredDb(scene.Through(Hum.Freq.To(freqHz > 55 ? 60 : 50))), leastDb, 100);
    }

    [Theory]
    [MemberData(nameof(Drums))]
    public void Without_hum_every_bit_stays(string drum)
    {
        var scene = new HumScene(48000, HumScene.Drums[drum](48000), new double[(int)(HumScene.Seconds * 48000)]);

        Assert.Equal(scene.Own, scene.Through());
    }

    // Half a second, and two fifths of one, are whole periods of the mains: such hits ring in step.
    [Theory]
    [MemberData(nameof(InTime))]
    public void Hits_in_time_with_the_mains_are_no_hum(double freqHz, double everyS, double decayS, double unevenS)
    {
        foreach (var seed in new ulong[] { 5, 6 })
        {
            var own = HumScene.Kick(48000, freqHz, decayS, everyS, unevenS, seed);

            Assert.Equal(own, new HumScene(48000, own, new double[own.Length]).Through());
        }
    }

    // What rings so long at such a place from hit to hit hardly differs from hum.
    [Theory]
    [InlineData(51, 0.5, 0.3)]
    [InlineData(50, 0.5, 0.6)]
    [InlineData(100, 0.4, 0.6)]
    public void Of_hits_that_ring_on_into_each_other_little_goes(double freqHz, double everyS, double decayS)
    {
        var own = HumScene.Kick(48000, freqHz, decayS, everyS, 0);

        var output = new HumScene(48000, own, new double[own.Length]).Through();

        Assert.InRange(10 * Math.Log10(own.Zip(output, (a, b) => (a - b) * (a - b)).Sum() / own.Sum(x => x * x)), double.NegativeInfinity, -20);
    }

    // The noise has −89 dB of power, the hum −48, of which −87 are left: together −85.
    [Theory]
    [InlineData(true, -39, -34)]
    [InlineData(false, 0, 0)]
    public void How_far_the_level_went_down_is_told_in_time(bool hums, double leastDb, double mostDb)
    {
        var silent = new double[(int)(HumScene.Seconds * 48000)];
        var scene = new HumScene(48000, HumScene.Floor(48000), hums ? HumScene.HumOf(48000, 50.03, HumDb) : silent);
        var processor = (Hum)Hum.Definition.Create(Settings.Of(Hum.Definition.Parameters), new ProcessorContext(new AudioFormat(48000, 2), silent.Length));

        Run.Through(processor, [scene.Mix, scene.Own], 1, 480, processor.LatencyFrames);

        var told = processor.GainCurve.LowestGain.ToArray();
        Assert.Equal(1600, told.Length);
        Assert.InRange(20 * Math.Log10(told[200..1400].Order().ElementAt(600)), leastDb, mostDb);
    }

    [Fact]
    public void Hum_as_loud_as_the_drum_goes_down_as_well()
    {
        var scene = new HumScene(48000, HumScene.Snare(48000), HumScene.HumOf(48000, 50.02, -10));

        Assert.InRange(scene.LoweredDb(scene.Through()), 25, 100);
    }

    [Fact]
    public void Nothing_is_taken_out_above_the_last_harmonic()
    {
        var tone = Signals.Sine((int)(HumScene.Seconds * 48000), 300, 0.01);
        var scene = new HumScene(48000, [.. HumScene.Floor(48000).Zip(tone, (a, b) => a + b)], new double[tone.Length]);

        Assert.Equal(scene.Own, scene.Through(Hum.Harmonics.To(5)));
        Assert.InRange(20 * Math.Log10(Spectrum.AmplitudeAt(scene.Through(Hum.Harmonics.To(10)).AsSpan(240000, 240000), 300) / 0.01), -200, -35);
    }

    [Fact]
    public void Mains_farther_off_than_they_may_be_are_left()
    {
        var hum = HumScene.HumOf(48000, 50.3, HumDb, harmonics: 1, wanderHz: 0);
        var scene = new HumScene(48000, HumScene.Floor(48000), hum);

        Assert.InRange(scene.LoweredDb(scene.Through(Hum.Track.To(0.02))), -1, 3);
    }

    [Fact]
    public void Where_nothing_was_recorded_nothing_is_taken_out()
    {
        var (sounds, silent) = (4 * 48000, 100);
        var scene = new HumScene(48000, HumScene.Floor(48000), HumScene.HumOf(48000, 50, HumDb));
        var own = scene.Mix;
        Array.Clear(own, sounds + silent, own.Length - (2 * (sounds + silent)));
        var cut = new HumScene(48000, own, new double[own.Length]);

        var output = cut.Through();

        Assert.All(output[(sounds + silent)..^(sounds + silent)], x => Assert.Equal(0, x));
        Assert.InRange(scene.LoweredDb([.. scene.Own[..96000], .. output[96000..sounds], .. scene.Own[sounds..]]), 20, 100);
    }
}
