using DrumPrint.Audio;
using DrumPrint.Delivering;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Delivering;

public sealed class RevisionTests : IDisposable
{
    private readonly DeliverySession _session = new();

    public RevisionTests() => _session.TakeDelivered();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_second_version_tells_what_changed_what_is_proved_the_same_what_is_new_and_what_is_gone()
    {
        var report = _session.Deliver(2, Revised);

        Assert.Equal(["03", "90", "91"], Of(report, DeliveredState.Changed));
        Assert.Equal(["01", "02", "92"], Of(report, DeliveredState.Unchanged));
        Assert.Equal(["16"], Of(report, DeliveredState.New));
        Assert.Equal(["15_Extra_Test_v1.wav"], report.Manifest.Withdrawn);
        Assert.Contains("dry: a level −9 → −10 dB (1 dB down) — reaches 03, 15, 16, 90, 91", report.Manifest.Changes);
        Assert.DoesNotContain(report.Manifest.Changes, c => c.StartsWith("song: version", StringComparison.Ordinal));
        Assert.Equal("v2: replace 03, 90, 91. The rest is identical to v1. New: 16 (an extra, fader down).", report.ReplaceWords);
        Assert.True(DeliveryCheck.Check(Path.Combine(_session.To, "Test_v2")).IsWhole);
    }

    [Fact]
    public void Files_of_which_only_the_length_changed_are_told()
    {
        var report = _session.Deliver(2, b => b.Replace("\"click\": true", "\"click\": true, \"tail_s\": 3", StringComparison.Ordinal));

        Assert.Contains(report.Manifest.Changes, c => c.StartsWith("only the length differs of 01, 02, 03, 15, 90, 91, 92: the first 3 s hold the same samples", StringComparison.Ordinal));
    }

    [Fact]
    public void The_delta_holds_what_changed_and_is_new_and_checks_by_itself()
    {
        _session.Deliver(2, Revised, since: _session.V1);
        var delta = Path.Combine(_session.To, "Test_v2_since_v1");

        Assert.Equal(
            ["03_Dry_Test_v2.wav", "16_Bare_Test_v2.wav", "90_RoughPreBus_Test_v2.wav", "91_RoughWithBus_Test_v2.wav"],
            Directory.GetFiles(delta, "*.wav").Select(Path.GetFileName).Order(StringComparer.Ordinal));
        var check = DeliveryCheck.Check(delta);
        Assert.True(check.IsWhole);
        Assert.True(check.Manifest.IsPart);
    }

    [Fact]
    public void The_first_version_stays_as_it_was()
    {
        var before = DeliverySession.Bytes(_session.V1);

        _session.Deliver(2, Revised, since: _session.V1);

        Assert.Equal(before, DeliverySession.Bytes(_session.V1));
    }

    [Fact]
    public void A_delivery_is_held_against_no_other_song_no_later_version_and_no_part()
    {
        _session.Deliver(2, Revised, since: _session.V1);

        Assert.Contains("holds only what changed", Assert.Throws<UsageException>(() => _session.Deliver(3, Revised, since: Path.Combine(_session.To, "Test_v2_since_v1"))).Message, StringComparison.Ordinal);
        Assert.Contains("this is version 2, and the chain is version 2", Assert.Throws<UsageException>(() => _session.Deliver(2, Revised, since: Path.Combine(_session.To, "Test_v2"))).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(SampleEncoding.Pcm24, null, true, "it was renamed")]
    [InlineData(SampleEncoding.Float32, null, true, "it is held as 32f now, not 24")]
    [InlineData(SampleEncoding.Float64, null, true, "it is held as 64f now, not 24")]
    [InlineData(SampleEncoding.Pcm24, 70_000, false, "It was cut at the end: 1.458 s of ")]
    [InlineData(SampleEncoding.Float32, 70_000, false, "It was cut at the end: 1.458 s of ")]
    public void A_file_is_found_again_renamed_cut_or_in_another_encoding(SampleEncoding encoding, int? frames, bool isWhole, string how)
    {
        _session.Deliver(2, Revised);
        var bounce = Path.Combine(_session.Session.Folder, "bounce.wav");
        DeliveryCheckTests.Rewrite(Path.Combine(_session.To, "Test_v2", "03_Dry_Test_v2.wav"), bounce, encoding, frames);

        var origins = FileOrigin.Find(bounce, [_session.To]);

        // The extra was made of the same bus and holds the same samples.
        Assert.Equal(["03_Dry_Test_v2.wav", "16_Bare_Test_v2.wav"], origins.Select(o => o.File.Name));
        Assert.All(origins, o => Assert.Equal((2, isWhole), (o.Manifest.Version, o.IsWhole)));
        Assert.Contains(how, origins[0].How, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_in_both_versions_is_told_of_both()
    {
        _session.Deliver(2, Revised);

        var origins = FileOrigin.Find(Path.Combine(_session.V1, "01_One_Test_v1.wav"), [_session.To]);

        Assert.Equal([1, 2], origins.Select(o => o.Manifest.Version));
    }

    [Fact]
    public void A_delivery_that_cannot_be_read_is_named_since_the_file_may_be_of_it()
    {
        _session.Deliver(2, Revised);
        File.WriteAllText(Directory.GetFiles(_session.V1, "*.delivery.json").Single(), "{");
        var passedOver = new List<string>();

        var origins = FileOrigin.Find(Path.Combine(_session.V1, "01_One_Test_v1.wav"), [_session.To], passedOver.Add);

        Assert.Equal([2], origins.Select(o => o.Manifest.Version));
        Assert.Contains(_session.V1, Assert.Single(passedOver), StringComparison.Ordinal);
    }

    [Fact]
    public void Other_sound_and_silence_come_from_nowhere()
    {
        var path = Path.Combine(_session.Session.Folder, "strange.wav");
        _session.Session.Track("strange.wav", Signals.Hits(100_000, 9));
        Assert.Empty(FileOrigin.Find(path, [_session.To]));

        _session.Session.Track("strange.wav", new double[70_000]);
        Assert.Empty(FileOrigin.Find(path, [_session.To]));
    }

    [Fact]
    public void A_folder_without_a_delivery_is_told()
    {
        var e = Assert.Throws<DeliveryException>(() => FileOrigin.Find(Path.Combine(_session.V1, "01_One_Test_v1.wav"), [_session.Session.Prints]));

        Assert.Contains("there is no delivery here", e.Message, StringComparison.Ordinal);
    }

    private static string Revised(string body) => body
        .Replace("\"a\": -9", "\"a\": -10", StringComparison.Ordinal)
        .Replace("{ \"number\": 15, \"name\": \"Extra\"", "{ \"number\": 16, \"name\": \"Bare\"", StringComparison.Ordinal);

    private static IEnumerable<string> Of(DeliveryReport report, DeliveredState state) => report.Manifest.Files.Where(f => f.State == state).Select(f => f.Name[..2]);
}
