using DrumPrint.Delivering;

namespace DrumPrint.Tests.Delivering;

public sealed class DeliveredNameTests : IDisposable
{
    private readonly DeliverySession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Delivered_files_are_named_by_the_pattern_of_the_chain_and_prints_stay_as_they_were()
    {
        var report = _session.Deliver(edit: Named);

        Assert.Equal(
            ["Test-v1-01-One.wav", "Test-v1-02-Two.wav", "Test-v1-03-Dry.wav", "Test-v1-15-Extra.wav", "Test-v1-90-RoughPreBus.wav", "Test-v1-91-RoughWithBus.wav", "Test-v1-92-Click.wav"],
            Directory.GetFiles(_session.V1, "*.wav").Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.True(DeliveryCheck.Check(_session.V1).IsWhole);
        Assert.All(report.Proof, p => Assert.True(p.LeftDbfs < -100));
        Assert.True(File.Exists(Path.Combine(_session.Session.Prints, "01_One_Test_v1.wav")));
        Assert.Equal(["Test-v1-01-One.wav"], FileOrigin.Find(Path.Combine(_session.Session.Prints, "01_One_Test_v1.wav"), [_session.To]).Select(o => o.File.Name));
    }

    [Fact]
    public void A_second_version_knows_its_files_by_number_and_name_whatever_they_are_called()
    {
        _session.TakeDelivered();

        var report = _session.Deliver(2, b => Named(b).Replace("\"a\": -9", "\"a\": -10", StringComparison.Ordinal), since: _session.V1);

        Assert.Equal("v2: replace 03, 15 (an extra, fader down), 90, 91. The rest is identical to v1.", report.ReplaceWords);
        Assert.Contains("delivery: names {number}_{name}_{code}_v{version} → {code}-v{version}-{number}-{name}", ChangesOf(report));
    }

    // Told of by diff, and no news to a mixer beside the files themselves.
    private string ChangesOf(DeliveryReport report)
    {
        Assert.DoesNotContain(report.Manifest.Changes, c => c.StartsWith("delivery", StringComparison.Ordinal));
        return string.Join('\n', DrumPrint.Diff.Differ.Compare(Path.Combine(_session.V1, "Test_v1.ticket.json"), Path.Combine(_session.To, "Test_v2", "Test_v2.ticket.json")).Changes);
    }

    private static string Named(string body) => body + ", \"delivery\": { \"names\": \"{code}-v{version}-{number}-{name}\" }";
}
