using DrumPrint.Dsp.Processors;
using DrumPrint.SelfTest;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.SelfTest;

public sealed class SelfTestRunTests
{
    private static readonly string SumsPath = Path.Combine("..", "..", "src", "DrumPrint", "SelfTest", "selftest.sha256");

    [Fact]
    public void The_built_in_session_holds_the_same_samples_on_every_machine()
    {
        var report = SelfTestRun.Run();

        Goldens.Rewrite(SumsPath, SelfTestRun.Sums(report));
        Assert.Equal(30, report.Sounds.Count);
        Assert.All(report.Sounds, sound => Assert.True(sound is { IsAsEverywhere: true, IsAsOnOneThread: true }, sound.FileName));
        Assert.True(report.ReprintsIdentical);
    }

    [Fact]
    public void Every_processor_and_every_choice_of_its_sound_is_in_the_built_in_session()
    {
        using var session = SelfTestSession.Make();
        var stages = session.Chain.Buses.SelectMany(b => b.Stages).Concat(session.Chain.DrumBus).ToList();

        Assert.All(Catalogue.All, processor => Assert.Contains(stages, s => s.Definition == processor));
        var text = SelfTestSession.Text("selftest.chain.jsonc");
        Assert.All(["feedback", "rms", "expand", "soft", "cubic", "hard", "nab", "loudness", "true_stereo", "ride", "by_crest", "exact", "convert", "pan_pct"], word => Assert.Contains($"\"{word}\"", text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_sound_that_differs_is_no_longer_the_same()
    {
        var sound = new SelfTestSound("01_Bands_SelfTest_v1.wav", ["eq"], new string('0', 64), IsAsEverywhere: false, IsAsOnOneThread: true);

        Assert.False(new SelfTestReport([sound], 2, ReprintsIdentical: true).IsSame);
        Assert.False(new SelfTestReport([sound with { IsAsEverywhere = true, IsAsOnOneThread = false }], 2, ReprintsIdentical: true).IsSame);
        Assert.False(new SelfTestReport([], 2, ReprintsIdentical: false).IsSame);
        Assert.True(new SelfTestReport([sound with { IsAsEverywhere = true }], 2, ReprintsIdentical: true).IsSame);
    }

    [Fact]
    public void Nothing_is_left_in_the_temporary_folder()
    {
        string folder;
        using (var session = SelfTestSession.Make())
        {
            folder = session.Chain.Folder;
            Assert.True(Directory.Exists(folder));
        }

        Assert.False(Directory.Exists(folder));
    }
}
