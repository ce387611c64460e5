using DrumPrint.Files;
using DrumPrint.Tests.Audio;

namespace DrumPrint.Tests.Files;

public sealed class UserSettingsTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Without_a_file_nothing_outside_a_session_is_read() =>
        Assert.Empty(UserSettings.Read(_folder.File("settings.json")).Policy.Folders);

    [Fact]
    public void The_line_that_a_refusal_shows_is_a_line_that_is_read()
    {
        var outside = Path.Combine(_folder.Path, "a \"quoted\" folder");

        Assert.Equal([outside], Read($"{{ {UserSettings.Line(outside)} }}").ReadFrom);
    }

    [Fact]
    public void Comments_are_allowed() =>
        Assert.Equal([_folder.Path], Read($"// mine\n{{ {UserSettings.Line(_folder.Path)}, }}").ReadFrom);

    [Fact]
    public void Contact_and_credit_are_what_the_user_wrote_and_nothing_else()
    {
        var settings = Read("{ \"contact\": \"mail@example.org\", \"credit\": \"Recorded at home\" }");

        Assert.Equal(("mail@example.org", "Recorded at home"), (settings.Contact, settings.Credit));
        Assert.Equal((null, null), (Read("{}").Contact, Read("{}").Credit));
    }

    [Theory]
    [InlineData("{ \"read_form\": [] }", "there is no setting 'read_form'. There are read_from, contact and credit.")]
    [InlineData("{ \"read_from\": [\"takes\"] }", "read_from is a list of folders by their whole paths")]
    [InlineData("{ \"read_from\": [\"/a\\u0000b\"] }", "read_from is a list of folders by their whole paths")]
    [InlineData("{ \"read_from\": [1] }", "read_from is a list of folders by their whole paths")]
    [InlineData("{ \"contact\": 1 }", "contact is one line of text in quotes, of up to 400 characters.")]
    [InlineData("{ \"credit\": \"two\\nlines\" }", "credit is one line of text in quotes")]
    [InlineData("[]", "settings are a group of keys")]
    [InlineData("{\n\"read_from\" []}", "settings.json:2: this is not JSON")]
    [InlineData("{ \"read_from\": [], \"read_from\": [] }", "this is not JSON, or a key stands there twice")]
    public void A_mistake_is_named_with_its_file(string json, string words)
    {
        var refused = Assert.Throws<UsageException>(() => Read(json));

        Assert.StartsWith(_folder.File("settings.json"), refused.Message, StringComparison.Ordinal);
        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
    }

    private UserSettings Read(string json)
    {
        File.WriteAllText(_folder.File("settings.json"), json);
        return UserSettings.Read(_folder.File("settings.json"));
    }
}
