using DrumPrint.Files;
using DrumPrint.Tests.Audio;

namespace DrumPrint.Tests.Files;

public sealed class ReceivedNameTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("tempo.json")]
    [InlineData("raw/tempo.json")]
    [InlineData("raw/a b/tempo map.json")]
    [InlineData("Ünder/tempo.json")]
    public void A_path_into_the_folder_is_allowed(string name) => Assert.Null(ReceivedName.Trouble(_folder.Path, name));

    [Theory]
    [InlineData("")]
    [InlineData("../tempo.json")]
    [InlineData("raw/../../tempo.json")]
    [InlineData("raw/..")]
    [InlineData("..")]
    [InlineData(".")]
    [InlineData("/etc/tempo.json")]
    [InlineData("//host/share/tempo.json")]
    [InlineData("C:/tempo.json")]
    [InlineData("c:tempo.json")]
    [InlineData("\\tempo.json")]
    [InlineData("raw\\..\\..\\tempo.json")]
    [InlineData("raw//tempo.json")]
    [InlineData("tempo.json\0.wav")]
    [InlineData("tempo\n.json")]
    [InlineData("raw/tempo.json:stream")]
    [InlineData("raw/nul")]
    [InlineData("raw/COM1.json")]
    [InlineData("raw /tempo.json")]
    [InlineData("raw./tempo.json")]
    public void Any_other_path_is_refused(string name) => Assert.NotNull(ReceivedName.Trouble(_folder.Path, name));

    [Fact]
    public void A_link_on_the_way_is_refused_by_name()
    {
        Directory.CreateDirectory(_folder.File("elsewhere"));
        if (!Links.Make(_folder.File("raw"), _folder.File("elsewhere")))
        {
            return;
        }

        Assert.Contains($"{_folder.File("raw")} is a link", ReceivedName.Trouble(_folder.Path, "raw/deep/tempo.json"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("01_Kick_Song_v1.wav", true)]
    [InlineData("a/b.wav", false)]
    [InlineData("..", false)]
    [InlineData(".hidden", false)]
    [InlineData("c:a.wav", false)]
    [InlineData("a\\b.wav", false)]
    [InlineData("con.wav", false)]
    [InlineData("", false)]
    public void Only_a_name_by_itself_is_bare(string name, bool isBare) => Assert.Equal(isBare, ReceivedName.IsBare(name));
}
