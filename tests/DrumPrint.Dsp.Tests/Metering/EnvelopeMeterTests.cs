using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Metering;

public sealed class EnvelopeMeterTests
{
    // An exponential falls by 60 dB in its decay time, by definition.
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.8)]
    [InlineData(2.5)]
    public void Decaying_noise_has_its_own_decay_time(double seconds) =>
        Assert.Equal(seconds, Measure(Decay(seconds)).DecayS!.Value, seconds * MeterTolerance.DecayPart);

    [Fact]
    public void The_last_loud_hit_is_the_one_whose_end_counts()
    {
        var meter = Measure([.. Decay(0.3), .. Decay(0.3), .. Decay(1)]);

        Assert.Equal(1, meter.DecayS!.Value, MeterTolerance.DecayPart);
    }

    // Forty seconds of which only the last two to four are remembered window by window.
    [Fact]
    public void What_is_remembered_by_its_level_alone_gives_the_same_figures()
    {
        double[] sound = [.. Signals.Hits(36 * Run.SampleRate, 30000, 3000), .. Decay(0.3)];
        var block = new AudioBlock([sound], 0, sound.Length);
        var (whole, folded) = (new EnvelopeMeter(new AudioFormat(Run.SampleRate, 1)), new EnvelopeMeter(new AudioFormat(Run.SampleRate, 1), rememberedWindows: 200));

        whole.Add(block);
        folded.Add(block);

        Assert.Equal(whole.DecayS, folded.DecayS);
        Assert.Equal(whole.ActiveShare!.Value, folded.ActiveShare!.Value, MeterTolerance.SharePart);
        Assert.InRange(whole.ActiveShare.Value, 0.1, 0.9);
    }

    [Fact]
    public void A_decay_that_begins_before_what_is_remembered_is_none()
    {
        double[] sound = [.. Decay(0.3), .. Signals.Noise(20 * Run.SampleRate, 1, 1e-4)];
        var folded = new EnvelopeMeter(new AudioFormat(Run.SampleRate, 1), rememberedWindows: 200);

        folded.Add(new AudioBlock([sound], 0, sound.Length));

        Assert.Null(folded.DecayS);
    }

    [Fact]
    public void What_is_not_a_decay_has_no_decay_time()
    {
        Assert.Null(Measure(Signals.Silence(4800)).DecayS);
        Assert.Null(Measure(Signals.Noise(48000)).DecayS);
        Assert.Null(Measure([.. Decay(1)[..9600]]).DecayS);
        Assert.Null(Measure([.. Decay(0.2), .. Signals.Noise(48000, 2, 0.05)]).DecayS);
    }

    [Fact]
    public void The_active_share_counts_what_is_within_40_dB_of_the_loudest()
    {
        var meter = Measure([.. Signals.Noise(4800), .. Signals.Noise(4800, 2, 0.02), .. Signals.Noise(9600, 3, 0.005), .. Signals.Silence(240)]);

        Assert.Equal(9600.0 / 19440, meter.ActiveShare!.Value, Tolerance.Rounding);
        Assert.Null(Measure(Signals.Silence(100)).ActiveShare);
        Assert.Equal(1, Measure(Signals.Impulse(1)).ActiveShare);
    }

    [Fact]
    public void Where_blocks_are_cut_changes_no_bit()
    {
        var sound = Decay(0.7);

        Assert.Equal(Measure(sound, 4800).DecayS, Measure(sound, 7).DecayS);
        Assert.Equal(Measure(sound, 4800).ActiveShare, Measure(sound, 1).ActiveShare);
    }

    private static double[] Decay(double seconds) =>
        [.. Signals.Noise((int)(1.2 * seconds * Run.SampleRate)).Select((x, n) => x * Math.Pow(10, -3 * n / (seconds * Run.SampleRate)))];

    private static EnvelopeMeter Measure(double[] sound, int blockFrames = 480)
    {
        var meter = new EnvelopeMeter(new AudioFormat(Run.SampleRate, 1));
        for (var start = 0; start < sound.Length; start += blockFrames)
        {
            meter.Add(new AudioBlock(new[] { sound }, start, Math.Min(blockFrames, sound.Length - start)));
        }

        return meter;
    }
}
