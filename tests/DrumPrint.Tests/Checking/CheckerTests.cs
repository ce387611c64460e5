using DrumPrint.Audio;
using DrumPrint.Checking;
using DrumPrint.Dsp;

namespace DrumPrint.Tests.Checking;

public sealed class CheckerTests : IDisposable
{
    private const int Rate = 48000;
    private readonly string _folder = Directory.CreateTempSubdirectory().FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_clipped_recording_is_told_at_its_place_and_no_other()
    {
        var report = Check("", n => n is >= 48000 and < 48006 ? 1 - (1.0 / (1 << 23)) : 0.3 * Wave(n));

        var found = Assert.Single(report.Findings, f => f.Rule.Id == "C1");
        Assert.Equal("hit", found.Track);
        Assert.Equal(1, Assert.Single(found.PlacesS), 3);
    }

    [Fact]
    public void A_hole_is_told_and_an_unbroken_recording_has_none()
    {
        Assert.Single(Check("", n => n is >= 60000 and < 70000 ? 0 : 0.3 * Wave(n)).Findings, f => f.Rule.Id == "C10");
        Assert.DoesNotContain(Check("", n => 0.3 * Wave(n)).Findings, f => f.Rule.Id is "C1" or "C10");
    }

    [Fact]
    public void What_the_chain_signs_off_is_no_longer_open()
    {
        var report = Check(""", "accepted": [ { "rule": "C1", "track": "hit", "why": "meant" } ]""", n => n is >= 48000 and < 48006 ? 1 - (1.0 / (1 << 23)) : 0.3 * Wave(n));

        Assert.Equal("meant", Assert.Single(report.Findings, f => f.Rule.Id == "C1").AcceptedWhy);
        Assert.DoesNotContain(report.Open, f => f.Rule.Id == "C1");
    }

    [Fact]
    public void A_take_longer_than_any_session_is_told_and_not_listened_to()
    {
        const int HighestSecond = 7 * 3600;
        using (var file = File.Create(Path.Combine(_folder, "night.wav")))
        using (var writer = new BinaryWriter(file))
        {
            const int Bytes = HighestSecond * 8000;
            writer.Write([.. "RIFF"u8, .. BitConverter.GetBytes(Bytes + 36), .. "WAVEfmt "u8, 16, 0, 0, 0, 1, 0, 1, 0, .. BitConverter.GetBytes(8000), .. BitConverter.GetBytes(8000), 1, 0, 8, 0, .. "data"u8, .. BitConverter.GetBytes(Bytes)]);
            file.SetLength(Bytes + 44L);
        }

        var report = Checker.Check(_folder, new CheckOptions());

        Assert.Contains(report.Findings, f => f.ToString().Contains("7 hours long; up to 6 are looked at", StringComparison.Ordinal));
    }

    private static double Wave(int n) => (((n * 37) % 1009) / 504.5) - 1 + 0.0003;

    private CheckReport Check(string more, Func<int, double> sample)
    {
        var samples = Enumerable.Range(0, 3 * Rate).Select(sample).ToArray();
        using (var writer = WaveWriter.Create(Path.Combine(_folder, "hit.wav"), new AudioFormat(Rate, 1), SampleEncoding.Pcm24, null, samples.Length))
        {
            writer.Write(new AudioBlock([samples], 0, samples.Length));
            writer.Finish(samples.Length);
            writer.Publish();
        }

        var chain = Path.Combine(_folder, "song.chain.json");
        File.WriteAllText(chain, $$"""{ "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": { "hit": "hit.wav" }, "buses": { "all": { "from": { "hit": 0 } } }, "prints": [ { "number": 1, "name": "All", "bus": "all" } ]{{more}} }""");
        return Checker.Check(chain, new CheckOptions());
    }
}
