using System.Globalization;
using DrumPrint.Chains.Reading;
using DrumPrint.Checking;
using DrumPrint.Delivering;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Delivering;

/// <summary>The demo session's first round of revisions, from print to delivery.</summary>
public sealed class DemoDeliveryTests : IDisposable
{
    private readonly TestSession _session = new();

    private string To => Path.Combine(_session.Folder, "out");

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_first_round_changes_five_prints_and_the_roughs_proves_nine_the_same_and_adds_two_extras()
    {
        var path = WrittenDemo.CopyTo(_session.Folder).Chain;
        Edit(path, "\"bits\": 24,", "\"bits\": 24, \"tail_s\": 4,"); // the whole song has its room at the end in the raw tracks
        var first = Deliver(path, null);
        Assert.True(DeliveryCheck.Check(Path.Combine(To, "SlowFerry_v1")).IsWhole);
        Assert.False(Checker.Check(Path.Combine(To, "SlowFerry_v1"), new CheckOptions()).NeedsALook);
        File.WriteAllText(Path.Combine(To, "SlowFerry_v1", "notes.txt"), "from elsewhere");
        Assert.Contains("notes.txt", Assert.Single(Checker.Check(Path.Combine(To, "SlowFerry_v1"), new CheckOptions()).Findings, f => f.Rule.Id == "H8").Sentence, StringComparison.Ordinal);
        File.Delete(Path.Combine(To, "SlowFerry_v1", "notes.txt"));
        Assert.All(first.Proof, p => Assert.True(p.LeftDbfs <= -100, $"{p.Name}: {p.LeftDbfs}"));

        Edit(path, "\"version\": 1", "\"version\": 2");
        Edit(path, "\"kick sub\": -5", "\"kick sub\": -7");
        Edit(path, "\"hold_ms\": 180, \"release_ms\": 420", "\"hold_ms\": 240, \"release_ms\": 650");
        Edit(path, "\"key_high_pass_hz\": 120, \"make_up_db\": 17", "\"key_high_pass_hz\": 160, \"make_up_db\": 17");
        Edit(path, "\"freq_hz\": 7500 } } ] } },", "\"freq_hz\": 5000 } } ] } },");
        Edit(path, "\"gain\": \"loudness\",", "\"gain\": \"loudness\", \"decay_s\": 1.4,");
        Edit(path, "// Overdubs:", "\n\"snare top only\": { \"from\": { \"snare top\": 0 } }, \"snare bottom only\": { \"from\": { \"snare bottom\": -8.5 } },\n// Overdubs:");
        Edit(path, "\"optional\": true },", "\"optional\": true }, { \"number\": 16, \"name\": \"SnareTopOnly\", \"bus\": \"snare top only\", \"optional\": true, \"level_db\": -6 }, { \"number\": 17, \"name\": \"SnareBottomOnly\", \"bus\": \"snare bottom only\", \"optional\": true, \"level_db\": -6 },");
        var second = Deliver(path, Path.Combine(To, "SlowFerry_v1"));

        Assert.Equal([1, 2, 9, 12, 13, 90, 91], Numbers(second, DeliveredState.Changed));
        Assert.Equal([3, 4, 5, 6, 7, 8, 10, 11, 14, 15, 92], Numbers(second, DeliveredState.Unchanged));
        Assert.Equal([16, 17], Numbers(second, DeliveredState.New));
        Assert.Equal("v2: replace 01, 02, 09, 12, 13, 90, 91. The rest is identical to v1. New: 16 (an extra, fader down), 17 (an extra, fader down).", second.ReplaceWords);
        Assert.Equal(
            [1, 2, 9, 12, 13, 16, 17, 90, 91],
            Directory.GetFiles(Path.Combine(To, "SlowFerry_v2_since_v1"), "*.wav").Select(f => int.Parse(Path.GetFileName(f)[..2], CultureInfo.InvariantCulture)).Order());
        Assert.True(DeliveryCheck.Check(Path.Combine(To, "SlowFerry_v2_since_v1")).IsWhole);
    }

    private DeliveryReport Deliver(string path, string? since)
    {
        var chain = ChainReader.Read(path);
        SessionPrinter.Print(chain, new PrintOptions { Store = StoreOptions.Beside(path) });
        return Deliverer.Deliver(chain, new DeliveryOptions { To = To, Since = since });
    }

    private static IEnumerable<int> Numbers(DeliveryReport report, DeliveredState state) => report.Manifest.Files.Where(f => f.State == state).Select(f => f.Number!.Value).Order();

    private static void Edit(string path, string from, string to)
    {
        var text = File.ReadAllText(path);
        Assert.Equal(2, text.Split(from).Length);
        File.WriteAllText(path, text.Replace(from, to, StringComparison.Ordinal));
    }
}
