using System.Text;
using DrumPrint.Aligning;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Aligning;

public sealed class AlignmentEditTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("drumprint-align-").FullName;
    private readonly string _chain;

    public AlignmentEditTests()
    {
        _chain = Path.Combine(_folder, "song.chain.json");
        File.WriteAllText(_chain, "// mine\r\n{ \"chain\": 1, \"song\": { \"title\": \"T\", \"code\": \"T\", \"rate_hz\": 48000 },\r\n\t\"tracks\": { \"a\": \"a.wav\", \"b\": { \"file\": \"b.wav\", \"delay_frames\": 3 } }, // two\r\n\"buses\": { \"x\": { \"from\": { \"a\": 0, \"b\": 0 } } }, \"prints\": [ { \"number\": 1, \"name\": \"X\", \"bus\": \"x\" } ] }\r\n");
    }

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Applying_twice_changes_nothing_the_second_time()
    {
        Assert.True(Apply(new AlignmentMove("a", 1.1, true), new AlignmentMove("b", 0.5, null)));
        var once = File.ReadAllBytes(_chain);

        Assert.False(Apply(new AlignmentMove("a", 1.1, true), new AlignmentMove("b", 0.5, null)));

        Assert.Equal(once, File.ReadAllBytes(_chain));
        var chain = ChainReader.Read(_chain);
        Assert.Equal((53, true), (chain.Tracks[0].Delay.ToFrames(48000, 20), chain.Tracks[0].IsInverted));
        Assert.Equal((24, false), (chain.Tracks[1].Delay.ToFrames(48000, 20), chain.Tracks[1].IsInverted));
    }

    [Fact]
    public void What_is_kept_for_undoing_is_a_chain_or_is_not_believed()
    {
        var before = File.ReadAllBytes(_chain);
        var hash = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(before));
        File.WriteAllText(Path.Combine(_folder, ".song.chain.json.before-align.json"), $$"""{ "after_sha256": "{{hash}}", "before_base64": "{{Convert.ToBase64String("not a chain"u8)}}" }""");

        var refused = Assert.Throws<UsageException>(() => AlignmentEdit.Undo(_chain));

        Assert.Contains("holds no chain", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_chain));
    }

    [Fact]
    public void Undoing_gives_the_bytes_of_before()
    {
        var before = File.ReadAllBytes(_chain);
        Apply(new AlignmentMove("a", 1.1, true));

        AlignmentEdit.Undo(_chain);

        Assert.Equal(before, File.ReadAllBytes(_chain));
        Assert.Throws<UsageException>(() => AlignmentEdit.Undo(_chain));
    }

    [Fact]
    public void A_file_that_was_edited_since_is_not_undone()
    {
        Apply(new AlignmentMove("a", 1.1, true));
        File.AppendAllText(_chain, "// one word more\n");
        var edited = File.ReadAllText(_chain, Encoding.UTF8);

        var refusal = Assert.Throws<UsageException>(() => AlignmentEdit.Undo(_chain));

        Assert.Contains("was edited since", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(edited, File.ReadAllText(_chain, Encoding.UTF8));
    }

    [Theory]
    [InlineData("""{ "after_sha256": "x", "before_base64": "?" }""")]
    [InlineData("""{ "after_sha256": "x", "before_base64": null }""")]
    [InlineData("""{ "after_sha256": null, "before_base64": "" }""")]
    [InlineData("""{ "after_sha256": "x" }""")]
    [InlineData("null")]
    [InlineData("[")]
    public void What_was_kept_is_refused_in_words_when_somebody_else_wrote_it(string kept)
    {
        var before = File.ReadAllBytes(_chain);
        File.WriteAllText(Path.Combine(_folder, ".song.chain.json.before-align.json"), kept);

        var refusal = Assert.Throws<UsageException>(() => AlignmentEdit.Undo(_chain));

        Assert.Contains("nothing can be taken back", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_chain));
    }

    private bool Apply(params AlignmentMove[] moves) => AlignmentEdit.Apply(_chain, ChainReader.Read(_chain), moves);
}
