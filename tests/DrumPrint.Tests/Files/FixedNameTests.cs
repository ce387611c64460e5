using DrumPrint.Audio;
using DrumPrint.Comparing;
using DrumPrint.Demo;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Reprinting;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Files;

/// <summary>Whoever can foresee a temporary name can lay a link there, and have any file of the user overwritten.</summary>
public sealed class FixedNameTests : IDisposable
{
    private const string Body = """
        "tracks": { "a": "a.wav" },
        "buses": { "b": { "from": { "a": 0 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
        """;

    private readonly TestFolder _folder = new();
    private readonly string _mine;

    public FixedNameTests() => _mine = _folder.Put("mine.txt", "mine"u8.ToArray());

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(".a.wav.partial")]
    [InlineData("a.wav.partial")]
    public void A_sound_file_goes_through_no_link(string name) => Try(name, () =>
    {
        using var writer = WaveWriter.Create(_folder.File("a.wav"), new AudioFormat(48000, 1), SampleEncoding.Pcm16, null, 10);
        writer.Write(new AudioBlock([new double[10]], 0, 10));
        writer.Finish(10);
        writer.Publish();
    });

    [Theory]
    [InlineData(".a.html.partial")]
    [InlineData("a.html.partial")]
    public void A_page_goes_through_no_link(string name) => Try(name, () => PageText.Write(_folder.File("a.html"), "page", new Dictionary<string, string>()));

    [Theory]
    [InlineData(".a.json.partial")]
    [InlineData("a.json.partial")]
    public void The_demos_texts_go_through_no_link(string name) => Try(name, () => TextFile.Write(_folder.File("a.json"), "{}", FileSteps.Plain));

    [Fact]
    public void A_ticket_a_lost_chain_and_the_store_go_through_no_link()
    {
        using var session = new TestSession();
        session.Track("a.wav", Signals.Hits(4800, 3));
        session.Print(session.Chain(Body));
        var ticket = Assert.Single(Directory.GetFiles(session.Prints, "*.ticket.json"));
        File.Delete(ticket);

        Try(ticket + ".partial", () => session.Print(session.Chain(Body)));
        Try(_folder.File("back.chain.json.partial"), () => ChainRecovery.Write(ticket, _folder.File("back.chain.json")));
        Assert.True(File.Exists(ticket));
    }

    [Fact]
    public void A_link_in_place_of_the_lock_is_named_and_nothing_is_made_where_it_leads()
    {
        using var session = new TestSession();
        session.Track("a.wav", Signals.Hits(4800, 3));
        Directory.CreateDirectory(session.Prints);
        if (!Links.Make(Path.Combine(session.Prints, ".drumprint.lock"), _folder.File("new.txt")))
        {
            return;
        }

        var refused = Assert.Throws<AudioFileException>(() => session.Print(session.Chain(Body)));

        Assert.Contains("this is a link", refused.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("new.txt")));
    }

    private void Try(string name, Action write)
    {
        if (Links.Make(_folder.File(name), _mine))
        {
            write();
            Assert.Equal("mine", File.ReadAllText(_mine));
        }
    }
}
