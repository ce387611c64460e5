using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Audio;

public sealed class FileReasonTests : IDisposable
{
    private const string Foreign = "The runtime's own words about '/takes/kick.wav'.";
    private readonly TestSession _session = new();

    public static TheoryData<Exception, string> Reasons => new()
    {
        { new UnauthorizedAccessException(Foreign), "its permissions forbid it" },
        { new DirectoryNotFoundException(Foreign), "it is not there" },
        { new PathTooLongException(Foreign), "its name is too long" },
        { new IOException(Foreign, 5), "the disk does not answer as it should" },
        { new IOException(Foreign, 28), "there is not enough room on the disk" },
        { new IOException(Foreign, 30), "the disk is write-protected" },
        { new IOException(Foreign, unchecked((int)0x8007_0020)), "another program has it open" },
        { new IOException(Foreign, 4711), "the system refused it for its reason 4711" },
    };

    public void Dispose() => _session.Dispose();

    [Theory]
    [MemberData(nameof(Reasons))]
    public void Why_a_file_was_refused_is_said_in_our_own_words(Exception e, string reason)
    {
        Assert.Equal(reason, FileReason.Of(e));
        Assert.DoesNotContain("runtime", FileTrouble.Reading("/takes/kick.wav", e).Message, StringComparison.Ordinal);
        Assert.DoesNotContain("runtime", FileTrouble.Writing("/takes/kick.wav", e).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_file_an_exception_is_about_is_taken_from_its_quotes()
    {
        Assert.Equal("/takes/kick.wav", FileReason.PathOf(new UnauthorizedAccessException("Access to the path '/takes/kick.wav' is denied.")));
        Assert.Equal("/drummer's/kick.wav", FileReason.PathOf(new UnauthorizedAccessException("Access to the path '/drummer's/kick.wav' is denied.")));
        Assert.Null(FileReason.PathOf(new IOException("Nothing in quotes.")));
    }

    [Fact]
    public void A_file_in_place_of_the_folder_for_prints_is_named_with_what_is_in_the_way()
    {
        _session.Track("a.wav", Signals.Impulse(100, 10));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "bus": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus" } ]
            """);
        File.WriteAllText(_session.Prints, "in the way", Encoding.ASCII);

        var refused = Assert.Throws<AudioFileException>(() => _session.Print(chain));

        Assert.EndsWith("this folder cannot be made: a file of that name is in the way.", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chain_of_too_long_a_name_is_refused_in_our_own_words()
    {
        var path = Path.Combine(_session.Folder, new string('a', 300) + ".chain.json");

        var refused = Assert.Throws<UnreadableFileException>(() => ChainReader.Read(path));

        Assert.StartsWith(path + ": ", refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\'', refused.Message);
    }

    [Fact]
    public void What_the_runtime_found_by_itself_is_told_in_words() =>
        Assert.Equal("something else stands at its name", FileReason.Of(new IOException()));
}
