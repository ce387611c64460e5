using System.Security.Cryptography;
using DrumPrint.Archiving;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Delivering;

namespace DrumPrint.Tests.Archiving;

public sealed class ArchiverTests : IDisposable
{
    private readonly DeliverySession _session = new();

    private string Folder => Path.Combine(_session.To, "Test_v1_archive");

    public void Dispose() => _session.Dispose();

    [Fact]
    public void An_archive_holds_all_that_went_in_and_came_out()
    {
        var report = Archive();

        Assert.True(report.IsNew);
        Assert.Equal((2, 0, 7), (report.Tracks, report.Impulses, report.Prints));
        Assert.Equal(
            [
                "MAKE-AGAIN.txt", "READ-ME-FIRST.txt", "SHA256SUMS", "conformance.md",
                "session/prints/01_One_Test_v1.wav", "session/prints/02_Two_Test_v1.wav", "session/prints/03_Dry_Test_v1.wav", "session/prints/15_Extra_Test_v1.wav",
                "session/prints/90_RoughPreBus_Test_v1.wav", "session/prints/91_RoughWithBus_Test_v1.wav", "session/prints/92_Click_Test_v1.wav", "session/prints/Test_v1.ticket.json",
                "session/raw/a.wav", "session/raw/b.wav", "session/tempo.json", "session/test.chain.json",
            ],
            Names());
    }

    [Fact]
    public void The_sums_are_those_of_every_file()
    {
        Archive();

        var sums = File.ReadAllLines(Path.Combine(Folder, "SHA256SUMS")).Select(l => l.Split("  ")).ToDictionary(l => l[1], l => l[0], StringComparer.Ordinal);

        Assert.Equal(Names().Where(n => n != "SHA256SUMS"), sums.Keys.Order(StringComparer.Ordinal));
        Assert.All(sums, s => Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(Folder, s.Key)))), s.Value));
    }

    [Fact]
    public void Moved_elsewhere_it_prints_and_reprints_the_same_bytes()
    {
        Archive();
        var moved = Path.Combine(_session.Session.Folder, "attic");
        Directory.Move(Folder, moved);
        Directory.Delete(Path.Combine(_session.Session.Folder, "raw"), recursive: true);
        var before = DeliverySession.Bytes(Path.Combine(moved, "session", "prints"));

        var again = Reprinter.Reprint(Path.Combine(moved, "session", "prints"), new ReprintOptions());
        SessionPrinter.Print(ChainReader.Read(Path.Combine(moved, "session", "test.chain.json")), new PrintOptions { OutFolder = Path.Combine(moved, "anew") });

        Assert.All(again.Prints, p => Assert.Equal(ReprintOutcome.Identical, p.Outcome));
        Assert.All(Directory.GetFiles(Path.Combine(moved, "anew"), "*.wav"), f => Assert.Equal(before[Path.GetFileName(f)], Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(f)))));
    }

    [Fact]
    public void The_recipe_names_every_track_bus_setting_print_and_formula()
    {
        Archive();

        var recipe = string.Join(' ', File.ReadAllText(Path.Combine(Folder, "MAKE-AGAIN.txt")).Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

        Assert.Contains("a: session/raw/a.wav; 0 dB, polarity inverted, no delay", recipe, StringComparison.Ordinal);
        Assert.Contains("b: session/raw/b.wav; 0 dB, polarity normal, 1.5 ms later", recipe, StringComparison.Ordinal);
        Assert.Contains("b: −8 dB, polarity normal, no delay, placed 30 % right", recipe, StringComparison.Ordinal);
        Assert.Contains("threshold −30 dB, ratio 4", recipe, StringComparison.Ordinal);
        Assert.Contains("15_Extra_Test_v1.wav: bus dry, 0 dB, not in the rough", recipe, StringComparison.Ordinal);
        Assert.Contains("a level L is turned down by", recipe, StringComparison.Ordinal);
        Assert.Contains("Giannoulis, Massberg and Reiss", recipe, StringComparison.Ordinal);
        Assert.DoesNotContain("```", recipe, StringComparison.Ordinal);
        Assert.DoesNotContain("eq, revision", recipe, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_processor_has_a_formula_to_put_away() =>
        Assert.All(Catalogue.Newest, d => Assert.Contains(Formulas.Of(d.Key)!, l => l.StartsWith("Formula", StringComparison.Ordinal)));

    [Fact]
    public void The_same_session_gives_the_same_archive_and_none_is_overwritten()
    {
        Archive();
        var before = DeliverySession.Bytes(_session.To);

        Assert.False(Archive().IsNew);
        Assert.Equal(before, DeliverySession.Bytes(_session.To));
        File.AppendAllText(Path.Combine(Folder, "session", "tempo.json"), " ");
        var refused = Assert.Throws<UsageException>(() => Archive());

        Assert.Contains("never overwritten", refused.Message, StringComparison.Ordinal);
        Assert.EndsWith(" ", File.ReadAllText(Path.Combine(Folder, "session", "tempo.json")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("raw/a.wav", "is not what these prints were made of")]
    [InlineData("prints/01_One_Test_v1.wav", "is not the file that the ticket vouches for")]
    public void What_was_changed_since_is_not_put_away(string file, string words)
    {
        var chain = _session.ChainFile();
        _session.Session.Print(chain);
        var path = Path.Combine(_session.Session.Folder, file);
        var bytes = File.ReadAllBytes(path);
        bytes[^3] ^= 1;
        File.WriteAllBytes(path, bytes);

        var refused = Assert.Throws<UsageException>(() => Archiver.Archive(chain, new ArchiveOptions { To = _session.To }));

        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.To));
    }

    [Fact]
    public void A_failure_at_any_step_leaves_nothing_or_the_whole_archive()
    {
        var chain = _session.ChainFile();
        _session.Session.Print(chain);
        var count = 0;
        Archiver.Archive(chain, new ArchiveOptions { To = Path.Combine(_session.Session.Folder, "counted"), Steps = new FileSteps(_ => count++) });
        var whole = DeliverySession.Bytes(Path.Combine(_session.Session.Folder, "counted"));
        for (var fails = 0; fails < count; fails++)
        {
            var at = 0;
            var place = Path.Combine(_session.Session.Folder, $"try{fails}");

            var error = Record.Exception(() => Archiver.Archive(chain, new ArchiveOptions { To = place, Steps = new FileSteps(_ => Fail(at++ == fails)) }));

            var left = DeliverySession.Bytes(place);
            Assert.True(error is null or IOException or DrumPrintException, error?.ToString());
            Assert.True(left.Count == 0 || left.OrderBy(f => f.Key, StringComparer.Ordinal).SequenceEqual(whole.OrderBy(f => f.Key, StringComparer.Ordinal)), $"step {fails}: {string.Join(", ", left.Keys)}");
        }
    }

    private static void Fail(bool now)
    {
        if (now)
        {
            throw new IOException("no");
        }
    }

    private ArchiveReport Archive()
    {
        var chain = _session.ChainFile();
        _session.Session.Print(chain);
        return Archiver.Archive(chain, new ArchiveOptions { To = _session.To });
    }

    private IReadOnlyList<string> Names() => [.. Directory.GetFiles(Folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Folder, f).Replace('\\', '/')).Order(StringComparer.Ordinal)];
}
