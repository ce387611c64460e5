using DrumPrint.Audio;
using DrumPrint.Delivering;
using DrumPrint.Dsp;
using DrumPrint.Tests.Files;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Delivering;

public sealed class DeliveryCheckTests : IDisposable
{
    private const string Two = "02_Two_Test_v1.wav";

    private readonly DeliverySession _session = new();

    public DeliveryCheckTests() => _session.TakeDelivered();

    private string TwoPath => Path.Combine(_session.V1, Two);

    private string Manifest => Path.Combine(_session.V1, "Test_v1.delivery.json");

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_missing_file_is_told()
    {
        File.Delete(TwoPath);

        Assert.Equal((DeliveryFindingKind.Missing, Two), Only());
    }

    [Fact]
    public void A_renamed_file_is_told_with_its_new_name()
    {
        File.Move(TwoPath, Path.Combine(_session.V1, "Toms final.wav"));

        Assert.Equal((DeliveryFindingKind.Renamed, Two), Only());
        Assert.Contains("goes by the name of Toms final.wav; it is the same to the last byte", Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_sample_is_told_with_its_second()
    {
        Kept.Flip(TwoPath, 0.75);

        Assert.Equal((DeliveryFindingKind.Changed, Two), Only());
        Assert.Contains("has other samples, for the first time in second 3", Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_header_over_the_same_samples_is_told_as_that()
    {
        Rewrite(TwoPath, TwoPath, SampleEncoding.Pcm24);

        Assert.Equal((DeliveryFindingKind.HeaderChanged, Two), Only());
    }

    [Fact]
    public void A_file_saved_shorter_is_told_with_how_much_is_left()
    {
        Rewrite(TwoPath, TwoPath, SampleEncoding.Pcm24, frames: 60_000);

        Assert.Equal((DeliveryFindingKind.Shortened, Two), Only());
        Assert.Contains("has 60000 frames of ", Text(), StringComparison.Ordinal);
        Assert.Contains("what is left is the same", Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_cut_off_on_the_way_is_told()
    {
        using (var file = new FileStream(TwoPath, FileMode.Open))
        {
            file.SetLength(file.Length / 2);
        }

        Assert.Equal((DeliveryFindingKind.Shortened, Two), Only());
    }

    [Fact]
    public void A_strange_file_is_told()
    {
        File.WriteAllText(Path.Combine(_session.V1, ".DS_Store"), "x");

        Assert.Equal((DeliveryFindingKind.Extra, ".DS_Store"), Only());
        Assert.Contains("your system or program put it there", Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_is_told_and_not_followed()
    {
        var elsewhere = Path.Combine(_session.Session.Folder, "elsewhere.wav");
        File.Move(TwoPath, elsewhere);
        if (!Links.Make(TwoPath, elsewhere))
        {
            return;
        }

        Assert.Equal((DeliveryFindingKind.Changed, Two), Only());
        Assert.Contains("is a link", Text(), StringComparison.Ordinal);
    }

    // The seeded fault: notes that say another version and another length than the files have.
    [Fact]
    public void A_sheet_that_says_another_version_and_length_is_found_even_where_all_hashes_were_made_anew()
    {
        var sheet = Path.Combine(_session.V1, "Test_v1_sheet.txt");
        var manifest = DeliveryManifest.Read(Manifest);
        File.WriteAllText(sheet, File.ReadAllText(sheet).Replace("- Version: v1", "- Version: v2", StringComparison.Ordinal).Replace("3.000 s, every", "2.500 s, every", StringComparison.Ordinal));
        Reseal(manifest with { Files = [.. manifest.Files.Select(f => f.Name == "Test_v1_sheet.txt" ? f with { FileSha256 = FileHash.Sha256(sheet), Bytes = new FileInfo(sheet).Length } : f)] });

        var check = DeliveryCheck.Check(_session.V1);

        Assert.Equal(2, check.Findings.Count);
        Assert.All(check.Findings, f => Assert.Equal(DeliveryFindingKind.Contradiction, f.Kind));
        Assert.Contains("says version 'v2'; the files are 'v1'", check.Findings[0].Text, StringComparison.Ordinal);
        Assert.Contains("says length ", check.Findings[1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_manifest_that_says_another_length_or_version_than_its_files_contradicts_itself()
    {
        var manifest = DeliveryManifest.Read(Manifest);
        Reseal(manifest with { Frames = manifest.Frames + 48000 });

        Assert.Equal(7, DeliveryCheck.Check(_session.V1).Findings.Count(f => f.Kind == DeliveryFindingKind.Contradiction && f.Text.Contains("the manifest says", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_list_of_sums_that_differs_from_the_manifest_is_told()
    {
        File.AppendAllText(Path.Combine(_session.V1, "SHA256SUMS"), new string('0', 64) + "  more.wav\n");

        Assert.Equal((DeliveryFindingKind.Contradiction, "SHA256SUMS"), Only());
    }

    [Theory]
    [InlineData("../secret.wav")]
    [InlineData("/etc/passwd")]
    [InlineData("C:file.wav")]
    [InlineData("folder/file.wav")]
    [InlineData(".hidden")]
    [InlineData("NUL")]
    [InlineData("name.")]
    public void A_name_that_leads_elsewhere_is_refused(string name)
    {
        File.WriteAllText(Manifest, File.ReadAllText(Manifest).Replace(Two, name, StringComparison.Ordinal));

        var e = Assert.Throws<DeliveryException>(() => DeliveryCheck.Check(_session.V1));

        Assert.Contains(name, e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{ \"delivery\": 2 }")]
    [InlineData("{ \"delivery\": 1 }")]
    [InlineData("{ \"delivery\": 1, \"files\": [ 1 ] }")]
    public void A_manifest_that_is_none_is_refused_in_words(string text)
    {
        File.WriteAllText(Manifest, text);

        Assert.NotEmpty(Assert.Throws<DeliveryException>(() => DeliveryCheck.Check(_session.V1)).Message);
    }

    [Fact]
    public void A_manifest_that_names_one_file_twice_or_is_too_large_or_a_link_is_refused()
    {
        var text = File.ReadAllText(Manifest);
        File.WriteAllText(Manifest, text.Replace("03_Dry_Test_v1.wav", Two.ToUpperInvariant(), StringComparison.Ordinal));
        Assert.Contains("stands there twice", Assert.Throws<DeliveryException>(() => DeliveryCheck.Check(_session.V1)).Message, StringComparison.Ordinal);

        File.WriteAllText(Manifest, new string(' ', 9 << 20));
        Assert.Contains("MB large", Assert.Throws<DeliveryException>(() => DeliveryCheck.Check(_session.V1)).Message, StringComparison.Ordinal);

        File.Delete(Manifest);
        var elsewhere = Path.Combine(_session.Session.Folder, "elsewhere.json");
        File.WriteAllText(elsewhere, text);
        if (Links.Make(Manifest, elsewhere))
        {
            Assert.Contains("is a link", Assert.Throws<DeliveryException>(() => DeliveryCheck.Check(_session.V1)).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_manifest_read_again_is_the_manifest_written() =>
        Assert.Equal(File.ReadAllText(Manifest), DeliveryManifest.Read(Manifest).ToText());

    /// <summary>Writes the samples of a file into another that knows nothing of ours.</summary>
    internal static void Rewrite(string from, string to, SampleEncoding encoding, int? frames = null)
    {
        var channels = TestSession.ReadFile(from);
        var length = frames ?? channels[0].Length;
        using var writer = WaveWriter.Create(to, new AudioFormat(TestSession.Rate, channels.Length), encoding, null, length);
        writer.Write(new AudioBlock(channels, 0, length));
        writer.Finish(length);
        writer.Publish();
    }

    private void Reseal(DeliveryManifest manifest)
    {
        File.WriteAllText(Manifest, manifest.ToText());
        File.WriteAllText(Path.Combine(_session.V1, "SHA256SUMS"), SumsFile.Text([.. manifest.Files.Select(f => (f.Name, f.FileSha256)), (manifest.FileName, FileHash.Sha256(Manifest))]));
    }

    private (DeliveryFindingKind Kind, string File) Only()
    {
        var finding = Assert.Single(DeliveryCheck.Check(_session.V1).Findings);
        return (finding.Kind, finding.File);
    }

    private string Text() => Assert.Single(DeliveryCheck.Check(_session.V1).Findings).Text;
}
