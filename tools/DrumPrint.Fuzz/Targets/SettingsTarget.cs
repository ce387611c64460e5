using DrumPrint.Files;

namespace DrumPrint.Fuzz.Targets;

/// <summary>The user's own settings.</summary>
internal sealed class SettingsTarget : FuzzTarget
{
    private readonly ScratchFolder _folder = new();
    private readonly ScratchFile _file;

    public SettingsTarget() => _file = new ScratchFile(_folder.File("settings.json"));

    public override string Name => "settings";

    public override long BaseBytes => 1 << 20;

    public override long BytesPerByte => 256;

    protected override bool IsRefusal(Exception e) => e is UsageException;

    protected override bool Read(byte[] input)
    {
        _file.Put(input);
        var settings = UserSettings.Read(_file.Path);
        Require(settings.ReadFrom.All(Path.IsPathFullyQualified), "folders are named by their whole paths");
        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _file.Dispose();
        _folder.Dispose();
        base.Dispose(disposing);
    }
}
