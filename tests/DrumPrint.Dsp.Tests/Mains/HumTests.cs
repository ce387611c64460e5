using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Mains;

/// <summary>Hum against microphones whose hum is known. All bars are own ones.</summary>
public sealed class HumTests
{
    private const double HumDb = -46;

    public static TheoryData<string> Drums => [.. HumScene.Drums.Keys];

    [Theory]
    [InlineData("room", 48000, 50.03, 35)]
    [InlineData("room", 44100, 59.95, 35)]
    [InlineData("room", 96000, 49.92, 30)]
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
