using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;

namespace DrumPrint.Tests.Demo;

[Collection(DemoGroup.Name)]
public sealed class DemoLevelTests(DemoFixture demo)
{
    // Raw peaks of the session sheet, in dBFS, by track.
    private static readonly double[] PlannedPeaks =
        [-9.5, -11, -12.5, -8, -10, -13, -15, -10, -9, -12, -12, -12, -13, -11, -14, -14, -16, -16, -15, -14, -16];

    [Fact]
    public void Every_track_peaks_where_the_session_wants_it()
    {
        for (var number = 1; number <= PlannedPeaks.Length; number++)
        {
            var peakDb = Db(demo.Track(number).Max(Math.Abs));

            Assert.True(Math.Abs(peakDb - PlannedPeaks[number - 1]) <= DemoTolerance.PeakDb, $"track {number}: {peakDb:0.0} dBFS");
        }
    }

    [Fact]
    public void Ghosts_lie_18_to_28_dB_under_the_backbeats_around_them()
    {
        var top = demo.Track(4);
        var backbeat = demo.Hits.Where(h => h.Stroke == Stroke.Backbeat).Average(h => PeakDb(top, h) - h.LevelDb);

        // Other drums ring on under the softest of them.
        Assert.All(demo.Hits.Where(h => h.Stroke == Stroke.Ghost), ghost => Assert.InRange(PeakDb(top, ghost) - backbeat, -29, -15));
    }

    [Fact]
    public void The_hat_reaches_the_snare_microphone_about_14_dB_under_its_own()
    {
        var hits = demo.Alone(Stroke.HatClosed, 3000);
        var hat = Microphones.All[6];
        var snare = Microphones.All[3];

        var own = hits.Average(h => EnergyDb(demo.Track(7), (int)h.Frame + 20)) - hat.GainDb;
        var spill = hits.Average(h => EnergyDb(demo.Track(4), (int)h.Frame + 52)) - snare.GainDb;

        Assert.True(hits.Length >= 5);
        Assert.Equal(-14.3, spill - own, DemoTolerance.SpillDb);
    }

    [Fact]
    public void The_snare_wires_rattle_when_toms_and_kick_sound()
    {
        // Bar 22 has kick and toms only; in its own top microphone the snare is silent.
        var fill = demo.Hits.Where(h => h.Stroke is Stroke.Rack or Stroke.Floor).ToArray();
        var from = (int)fill[0].Frame;
        var frames = (int)(fill[^1].Frame - from);

        var under = BandDb(demo.Track(6), from, frames, 2500, 8000) - Microphones.All[5].GainDb;
        var top = BandDb(demo.Track(4), from, frames, 2500, 8000) - Microphones.All[3].GainDb;

        Assert.True(under > top + 6, $"under {under:0.0}, top {top:0.0} dB");
    }

    [Fact]
    public void Tracks_end_in_nothing_but_the_noise_of_their_microphones()
    {
        for (var number = 1; number <= 21; number++)
        {
            var end = demo.Track(number)[^4800..];

            Assert.Equal(-80, Db(Math.Sqrt(end.Average(s => s * s))), 1.0);
        }
    }

    private static double PeakDb(double[] track, PlayedHit hit) => Db(track.AsSpan((int)hit.Frame, 1500).ToArray().Max(Math.Abs));

    private static double EnergyDb(double[] track, int start) => BandDb(track, start, 1200, 3000, 10000);

    private static double BandDb(double[] track, int start, int frames, double lowHz, double highHz)
    {
        var spectrum = new System.Numerics.Complex[frames];
        for (var n = 0; n < frames; n++)
        {
            spectrum[n] = track[start + n];
        }

        MathNet.Numerics.IntegralTransforms.Fourier.Forward(spectrum);
        var power = 0.0;
        for (var k = 0; k < frames / 2; k++)
        {
            var freqHz = k * 48000.0 / frames;
            power += freqHz >= lowHz && freqHz <= highHz ? spectrum[k].Magnitude * spectrum[k].Magnitude : 0;
        }

        return 10 * Math.Log10(power / frames);
    }

    private static double Db(double amplitude) => 20 * Math.Log10(amplitude);
}
