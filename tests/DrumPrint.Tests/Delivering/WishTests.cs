using DrumPrint.Delivering;

namespace DrumPrint.Tests.Delivering;

public sealed class WishTests : IDisposable
{
    private readonly DeliverySession _session = new();

    public WishTests() => _session.TakeDelivered();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Each_wish_stands_beside_what_was_changed_for_it()
    {
        var report = Second();

        Assert.Equal(["Quieter dry, please.", "Shorter tail?"], report.Manifest.Wishes.Select(w => w.Text));
        Assert.Equal(["dry: a level −9 → −10 dB (1 dB down) — reaches 03, 15, 90, 91"], report.Manifest.Wishes[0].Changes);
        Assert.Equal("Nothing was changed for it. The room is that long.", report.Manifest.Wishes[1].Outcome);
        Assert.DoesNotContain(report.Manifest.Changes, c => c.Contains("wish", StringComparison.Ordinal));
        Assert.True(DeliveryCheck.Check(Path.Combine(_session.To, "Test_v2")).IsWhole);
    }

    [Fact]
    public void A_print_may_be_named_by_its_name() =>
        Assert.Equal(["02 Two: notes added"], Second("\"Two\"", b => b.Replace("\"keep\": \"first_out\"", "\"keep\": \"first_out\", \"notes\": \"Softer.\"", StringComparison.Ordinal)).Manifest.Wishes[0].Changes);

    [Fact]
    public void Sheet_text_and_page_pair_wish_and_change()
    {
        Second();

        foreach (var file in new[] { "Test_v2_sheet.html", "Test_v2_sheet.txt", "Test_v2_listen.html" })
        {
            var text = string.Join(' ', File.ReadAllText(Path.Combine(_session.To, "Test_v2", file)).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            var (wish, done) = (text.IndexOf("Quieter dry, please.", StringComparison.Ordinal), text.LastIndexOf("a level −9 → −10 dB", StringComparison.Ordinal));
            Assert.True(wish >= 0 && done > wish, file);
            Assert.Contains("The room is that long.", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Long answered.", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_manifest_with_wishes_read_again_is_the_manifest_written()
    {
        Second();

        var manifest = DeliveryManifest.ReadIn(Path.Combine(_session.To, "Test_v2"));

        Assert.Equal(File.ReadAllText(Path.Combine(_session.To, "Test_v2", manifest.FileName)), manifest.ToText());
        Assert.Equal(2, manifest.Wishes.Count);
    }

    private DeliveryReport Second(string about = "\"dry\"", Func<string, string>? edit = null) => _session.Deliver(2, b => (edit ?? Quieter)(b) + $$"""
        , "delivery": { "wishes": [
            { "version": 1, "wish": "Long answered." },
            { "version": 2, "wish": "Quieter dry, please.", "about": [{{about}}] },
            { "version": 2, "wish": "Shorter tail?", "answer": "The room is that long." } ] }
        """);

    private static string Quieter(string body) => body.Replace("\"a\": -9", "\"a\": -10", StringComparison.Ordinal);
}
