using DrumPrint.Measuring;
using DrumPrint.Tests.Demo;

namespace DrumPrint.Tests.Measuring;

[Collection(DemoGroup.Name)]
public sealed class HitMeterTests(DemoFixture demo)
{
    [Fact]
    public void Channels_of_a_file_of_many_are_measured_as_files_of_their_own()
    {
        using var session = new Support.TestSession();
        string[] names = ["Kick In", "Snare Top", "Hi-Hat", "Rack Tom"];
        int[] demos = [0, 3, 6, 7];
        Support.ManyChannels.Write(Path.Combine(session.Folder, "take.wav"), [.. demos.Select(d => Support.TestSession.ReadFile(demo.Files.Tracks[d])[0])], names);

        var many = HitMeter.Measure([Path.Combine(session.Folder, "take.wav")], 150, 1200, (_, _) => { }, CancellationToken.None);
        var apart = HitMeter.Measure([.. demos.Select(d => demo.Files.Tracks[d])], 150, 1200, (_, _) => { }, CancellationToken.None);

        Assert.EndsWith("take.wav channel 2 (Snare Top)", many[1].File, StringComparison.Ordinal);
        Assert.Equal(apart.Select(r => (r.Hits.Count, r.Ghosts.Count, r.Spill.Count, r.OpenDb)), many.Select(r => (r.Hits.Count, r.Ghosts.Count, r.Spill.Count, r.OpenDb)));
    }

    [Fact]
    public void The_snares_backbeats_ghosts_and_spill_are_told_apart_and_a_threshold_stands_between()
    {
        var reports = HitMeter.Measure([.. demo.Files.Tracks.Take(10)], 150, 1200, (_, _) => { }, CancellationToken.None);

        var snare = reports[3];
        Assert.Equal(20, snare.Hits.Count);
        Assert.InRange(snare.OpenDb!.Value, snare.Spill.LoudDb!.Value, snare.Hits.SoftDb!.Value);
        Assert.InRange(snare.OpenDb.Value, -34, -28); // the session's own chain says −31
        Assert.True(snare.Ghosts.LoudDb < snare.Hits.SoftDb);
    }

    [Fact]
    public void Alone_a_file_does_not_tell_ghosts_from_spill_and_says_so()
    {
        var report = Assert.Single(HitMeter.Measure([demo.Files.Tracks[3]], null, null, (_, _) => { }, CancellationToken.None));

        Assert.Equal(0, report.Spill.Count);
        Assert.Contains("alone", report.Note, StringComparison.Ordinal);
    }
}
