using System.Diagnostics;
using DrumPrint.Audio;
using DrumPrint.Delivering;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Delivering;

/// <summary>Deliveries at the rate, depth and channels that a mixer asked for.</summary>
public sealed class OtherFormTests : IDisposable
{
    // Four files and a rough, each rounded with noise of one step's peak either way at 16 bits: 20·lg(5 · 1.5 / 32768).
    private const double RoundedAt16Dbfs = -72;

    private readonly DeliverySession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Split_stereo_is_both_sides_of_the_print_sample_by_sample_and_adds_up()
    {
        var report = _session.Deliver(with: o => o with { SplitsStereo = true });

        var print = TestSession.ReadFile(Path.Combine(_session.Session.Prints, "02_Two_Test_v1.wav"));
        Assert.Equal(print[0], TestSession.ReadFile(Path.Combine(_session.V1, "02_Two-L_Test_v1.wav"))[0]);
        Assert.Equal(print[1], TestSession.ReadFile(Path.Combine(_session.V1, "02_Two-R_Test_v1.wav"))[0]);
        Assert.False(File.Exists(Path.Combine(_session.V1, "02_Two_Test_v1.wav")));
        Assert.All(report.Proof, p => Assert.True(p.LeftDbfs < -100, p.Name));
        Assert.True(DeliveryCheck.Check(_session.V1).IsWhole);
        var sheet = File.ReadAllText(Path.Combine(_session.V1, "Test_v1_sheet.txt"));
        Assert.Contains("-L to go hard left", sheet, StringComparison.Ordinal);
        Assert.Contains("Mono files: 01 03.", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_has_one_strip_for_both_sides()
    {
        _session.Deliver(with: o => o with { SplitsStereo = true });

        var page = File.ReadAllText(Path.Combine(_session.V1, "Test_v1_listen.html"));
        Assert.Contains("\"name\":\"02_Two-L_Test_v1.wav\",\"right\":\"02_Two-R_Test_v1.wav\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("\"name\":\"02_Two-R_Test_v1.wav\",\"number\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_rate_and_depth_are_told_keep_time_and_still_add_up()
    {
        _session.Session.Track("raw/a.wav", Signals.Impulse(100_000, 48_000));

        var report = _session.Deliver(with: o => o with { RateHz = 44100, Encoding = SampleEncoding.Pcm16 });

        var manifest = DeliveryManifest.ReadIn(_session.V1);
        Assert.Equal((44100, SampleEncoding.Pcm16, 48000, "24"), (manifest.RateHz, manifest.Encoding, manifest.PrintedRateHz, manifest.PrintedBits));
        Assert.All(report.Proof, p => Assert.True(p.LeftDbfs < RoundedAt16Dbfs, $"{p.Name}: {p.LeftDbfs}"));
        Assert.True(DeliveryCheck.Check(_session.V1).IsWhole);
        var sheet = string.Join(' ', File.ReadAllText(Path.Combine(_session.V1, "Test_v1_sheet.txt")).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("44100 Hz, 16-bit; printed at 48000 Hz, 24-bit, and converted for this delivery.", sheet, StringComparison.Ordinal);

        // Bar 2 begins after four beats at 104 a minute.
        Assert.Contains(FormattableString.Invariant($"2\t4/4\t104\t2.307692\t{Math.Round(4 * 60 / 104.0 * 44100)}\t"), File.ReadAllText(Path.Combine(_session.V1, "Test_v1_tempo.txt")), StringComparison.Ordinal);
        var (before, now) = (TestSession.ReadFile(Path.Combine(_session.Session.Prints, "03_Dry_Test_v1.wav"))[0], TestSession.ReadFile(Path.Combine(_session.V1, "03_Dry_Test_v1.wav"))[0]);
        Assert.Equal(Math.Ceiling(before.Length * (44100 / 48000.0)), now.Length);
        Assert.Equal((48_000, 44_100), (Signals.PeakAt(before), Signals.PeakAt(now)));
    }

    [Fact]
    public void A_longer_word_holds_the_same_numbers_and_is_found_again()
    {
        _session.Deliver(with: o => o with { Encoding = SampleEncoding.Float32 });

        Assert.Equal(
            TestSession.ReadFile(Path.Combine(_session.Session.Prints, "02_Two_Test_v1.wav")),
            TestSession.ReadFile(Path.Combine(_session.V1, "02_Two_Test_v1.wav")));
        Assert.Equal(["02_Two_Test_v1.wav"], FileOrigin.Find(Path.Combine(_session.Session.Prints, "02_Two_Test_v1.wav"), [_session.To]).Select(o => o.File.Name));
    }

    [Fact]
    public void The_same_request_gives_the_same_bytes()
    {
        static DeliveryOptions Form(DeliveryOptions options) => options with { RateHz = 44100, Encoding = SampleEncoding.Pcm16, SplitsStereo = true, WithDry = true };
        var other = Path.Combine(_session.Session.Folder, "elsewhere");

        _session.Deliver(with: Form);
        _session.Deliver(to: other, with: Form);

        Assert.Equal(DeliverySession.Bytes(_session.To), DeliverySession.Bytes(other));
    }

    [Fact]
    public void A_peak_that_rises_above_full_scale_between_rates_is_refused_and_leaves_nothing()
    {
        // A square wave just below full scale swings over at its edges once its highest overtones are gone.
        _session.Session.Track("raw/a.wav", [.. Enumerable.Range(0, 100_000).Select(n => n / 60 % 2 == 0 ? 0.99 : -0.99)]);

        var e = Assert.Throws<UsageException>(() => _session.Deliver(edit: b => b.Replace("\"dry\": { \"from\": { \"a\": -9 } }", "\"dry\": { \"from\": { \"a\": 0 } }", StringComparison.Ordinal).Replace("\"click\": true", "\"click\": true, \"rough\": false, \"rough_with_bus\": false", StringComparison.Ordinal), with: o => o with { RateHz = 44100 }));

        Assert.Contains("03_Dry_Test_v1.wav would peak ", e.Message, StringComparison.Ordinal);
        Assert.Contains("--bits 32f", e.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.To));
    }

    // Source: FFmpeg's own prober, which shares nothing with this writer.
    [FactWithTool("ffprobe")]
    public void Ffprobe_reads_the_converted_file_as_what_was_asked_for()
    {
        _session.Deliver(with: o => o with { RateHz = 44100, Encoding = SampleEncoding.Pcm16, SplitsStereo = true });

        using var probe = Process.Start(new ProcessStartInfo("ffprobe", ["-v", "error", "-show_entries", "stream=codec_name,sample_rate,channels,duration_ts", "-of", "default=noprint_wrappers=1", Path.Combine(_session.V1, "02_Two-L_Test_v1.wav")]) { RedirectStandardOutput = true })!;
        var said = probe.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        probe.WaitForExit();

        Assert.Equal(["channels=1", "codec_name=pcm_s16le", "duration_ts=132300", "sample_rate=44100"], said.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_rate_out_of_range_is_refused() =>
        Assert.Contains("--rate 441: a rate is 8000 to 384000 Hz", Assert.Throws<UsageException>(() => _session.Deliver(with: o => o with { RateHz = 441 })).Message, StringComparison.Ordinal);
}
