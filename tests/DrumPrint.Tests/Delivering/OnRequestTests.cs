using DrumPrint.Delivering;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Delivering;

/// <summary>Dry twins, raw tracks and impulses, which lie in a delivery only when they are asked for.</summary>
public sealed class OnRequestTests : IDisposable
{
    // Rounding to 24 bits leaves half a step at most; the twin was held in 32-bit float before, whose half step below full scale is a quarter of that.
    private const double HalfStep = 0.5 * 1.25 / (1 << 23);

    private readonly DeliverySession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_dry_twin_is_the_plain_sum_of_its_feeds_as_long_as_the_prints()
    {
        _session.Deliver(edit: b => b.Replace("\"a\": -6 }", "\"a\": -6, \"b\": { \"level_db\": -12, \"polarity\": \"inverted\" } }", StringComparison.Ordinal), with: o => o with { WithDry = true });

        Assert.Equal(["dry_01_One_Test_v1.wav"], Names("dry_*"));
        var dry = TestSession.ReadFile(Path.Combine(_session.V1, "dry_01_One_Test_v1.wav"));
        var (a, b) = (Raw("a"), Raw("b"));
        Assert.Equal(TestSession.ReadFile(Path.Combine(_session.V1, "01_One_Test_v1.wav"))[0].Length, dry[0].Length);
        const int delay = 72; // 1.5 ms at 48 kHz; the track itself is late, and its polarity is turned in the feed
        Assert.All(Enumerable.Range(0, dry[0].Length), n => Assert.Equal(
            (-Math.Pow(10, -6 / 20.0) * At(a, n)) - (Math.Pow(10, -12 / 20.0) * At(b, n - delay)), dry[0][n], HalfStep));
        Assert.True(DeliveryCheck.Check(_session.V1).IsWhole);
    }

    [Fact]
    public void A_dry_twin_that_would_go_above_full_scale_is_lowered_and_that_is_told()
    {
        var report = _session.Deliver(edit: b => b.Replace("\"a\": -6 }, \"through\": [ ", "\"a\": 18 }, \"through\": [ { \"gain\": { \"level_db\": -24 } }, ", StringComparison.Ordinal), with: o => o with { WithDry = true });

        var peak = TestSession.ReadFile(Path.Combine(_session.V1, "dry_01_One_Test_v1.wav"))[0].Max(Math.Abs);
        Assert.InRange(20 * Math.Log10(peak), -0.1, 0);
        Assert.Contains(report.Notes, n => n.StartsWith("The dry twin of 01 was lowered by ", StringComparison.Ordinal));
        Assert.Contains("dry_01_One_Test_v1.wav", File.ReadAllText(Path.Combine(_session.V1, "Test_v1_sheet.txt")), StringComparison.Ordinal);
    }

    [Fact]
    public void Raw_tracks_lie_there_to_the_byte_under_safe_names_and_are_found_again()
    {
        File.Move(Path.Combine(_session.Session.Folder, "raw", "b.wav"), Path.Combine(_session.Session.Folder, "raw", "b (später).wav"));

        _session.Deliver(edit: b => b.Replace("raw/b.wav", "raw/b (später).wav", StringComparison.Ordinal), with: o => o with { WithRaw = true });

        Assert.Equal(["raw_a.wav", "raw_b--sp-ter-.wav"], Names("raw_*"));
        Assert.Equal(File.ReadAllBytes(Path.Combine(_session.Session.Folder, "raw", "a.wav")), File.ReadAllBytes(Path.Combine(_session.V1, "raw_a.wav")));
        Assert.True(DeliveryCheck.Check(_session.V1).IsWhole);
        var origin = Assert.Single(FileOrigin.Find(Path.Combine(_session.Session.Folder, "raw", "a.wav"), [_session.To]));
        Assert.Equal(("raw_a.wav", "It is the raw track a; all samples are the same."), (origin.File.Name, origin.How));
    }

    [Fact]
    public void A_raw_track_that_changed_since_the_print_is_refused_and_nothing_is_left()
    {
        var chain = _session.Chain();
        _session.Session.Print(chain);
        _session.Session.Track("raw/a.wav", Signals.Hits(100_000, 7));

        var e = Assert.Throws<UsageException>(() => Deliverer.Deliver(chain, new DeliveryOptions { To = _session.To, WithRaw = true }));

        Assert.Contains("raw/a.wav is not what these prints were made of", e.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.To));
    }

    [Fact]
    public void Only_impulses_whose_licence_permits_it_are_passed_on()
    {
        _session.Session.Track("ir/room.wav", Signals.Hits(2_000, 3));
        _session.Session.Track("ir/hall.wav", Signals.Hits(2_000, 4));
        static string Rooms(string body) => body
            .Replace("\"b\": { \"level_db\": -8, \"pan_pct\": 30 } } }", "\"b\": { \"level_db\": -8, \"pan_pct\": 30 } }, \"through\": [ { \"convolve\": { \"impulse\": \"room\", \"gain\": \"energy\" } }, { \"convolve\": { \"impulse\": \"hall\", \"gain\": \"energy\" } } ] }", StringComparison.Ordinal)
            + ", \"impulses\": { \"room\": { \"file\": \"ir/room.wav\", \"licence\": \"CC0 1.0\", \"pass_on\": true }, \"hall\": { \"file\": \"ir/hall.wav\", \"licence\": \"all rights kept\" } }";

        var report = _session.Deliver(edit: Rooms, with: o => o with { WithImpulses = true });

        Assert.Equal(["impulse_room.wav"], Names("impulse_*"));
        Assert.Contains("hall was left out: the chain does not say that the licence of this impulse permits it. If it does, add \"pass_on\": true to the impulse, and print.", report.Notes);
        Assert.Contains("CC0 1.0", File.ReadAllText(Path.Combine(_session.V1, "Test_v1_sheet.txt")), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_not_there_stands_on_the_sheet_as_on_request()
    {
        _session.TakeDelivered();

        var sheet = File.ReadAllText(Path.Combine(_session.V1, "Test_v1_sheet.txt"));
        Assert.Contains("Dry twins of 01: the same without any processing.", sheet, StringComparison.Ordinal);
        Assert.Contains("The raw tracks of the microphones below.", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public void The_delta_leaves_out_raw_tracks_and_twins_that_did_not_change()
    {
        static DeliveryOptions All(DeliveryOptions options) => options with { WithDry = true, WithRaw = true };
        _session.Deliver(with: All);

        _session.Deliver(2, b => b.Replace("\"ratio\": 4", "\"ratio\": 5", StringComparison.Ordinal), since: _session.V1, with: All);

        var delta = Path.Combine(_session.To, "Test_v2_since_v1");
        Assert.Equal(["01_One_Test_v2.wav", "90_RoughPreBus_Test_v2.wav", "91_RoughWithBus_Test_v2.wav"], Directory.GetFiles(delta, "*.wav").Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.True(DeliveryCheck.Check(delta).IsWhole);
        Assert.True(DeliveryCheck.Check(Path.Combine(_session.To, "Test_v2")).IsWhole);
    }

    [Fact]
    public void A_run_with_all_of_it_that_fails_at_a_step_leaves_nothing_or_all()
    {
        using var session = new DeliverySession(frames: 30_000); // the steps are what is tried, whatever the length
        var whole = Path.Combine(session.Session.Folder, "whole");
        session.Deliver(to: whole, with: All);
        var expected = DeliverySession.Bytes(whole);
        var chain = session.Chain();
        const int stride = 5;
        var failures = 0;
        for (var step = 0; ; step += stride)
        {
            var failed = Path.Combine(session.Session.Folder, FormattableString.Invariant($"failed{step}"));
            var n = -1;
            if (Record.Exception(() => session.DeliverPrinted(chain, failed, with: All, steps: new QuickFiles(_ =>
            {
                if (Interlocked.Increment(ref n) == step)
                {
                    throw new IOException("it fails");
                }
            }))) is null)
            {
                break;
            }

            failures++;
            Assert.True(DeliverySession.Bytes(failed) is var left && (left.Count == 0 || left.SequenceEqual(expected)), FormattableString.Invariant($"step {step}"));
        }

        Assert.InRange(failures, 5, 40);

        static DeliveryOptions All(DeliveryOptions options) => options with { WithDry = true, WithRaw = true, SplitsStereo = true, Encoding = DrumPrint.Audio.SampleEncoding.Pcm16 };
    }

    private static double At(double[] samples, int n) => n >= 0 && n < samples.Length ? samples[n] : 0;

    private double[] Raw(string name) => TestSession.ReadFile(Path.Combine(_session.Session.Folder, "raw", name + ".wav"))[0];

    private IEnumerable<string?> Names(string pattern) => Directory.GetFiles(_session.V1, pattern).Select(Path.GetFileName).Order(StringComparer.Ordinal);
}
