using System.Text.Json;

namespace DrumPrint.Files;

/// <summary>What a user has settled for all sessions, in a small file of their own.</summary>
public sealed record UserSettings
{
    /// <summary>The environment variable that names another folder for settings.</summary>
    internal const string Variable = "DRUMPRINT_SETTINGS";

    private const string ReadFromKey = "read_from";
    private const string ContactKey = "contact";
    private const string CreditKey = "credit";
    private const int LongestLine = 400;
    private const long MostBytes = 1 << 20;

    private static readonly JsonDocumentOptions Reading = new() { AllowTrailingCommas = true, CommentHandling = JsonCommentHandling.Skip, AllowDuplicateProperties = false };

    /// <summary>Folders outside a session that chains may name files in; whole paths.</summary>
    public IReadOnlyList<string> ReadFrom { get; init; } = [];

    /// <summary>How a mixer reaches the user, one line, as it stands on delivery sheets; null when the user says nothing.</summary>
    public string? Contact { get; init; }

    /// <summary>How the user is to be credited, one line, as it stands on delivery sheets; null when the user says nothing.</summary>
    public string? Credit { get; init; }

    /// <summary>Where the file lies: <c>drumprint/settings.json</c> in the folder for settings, which is <c>~/.config</c> on Linux
    /// (or <c>XDG_CONFIG_HOME</c>), <c>~/Library/Application Support</c> on macOS and <c>%APPDATA%</c> on Windows. Null for a user
    /// who has no such folder. The environment variable <c>DRUMPRINT_SETTINGS</c> names another folder than <c>drumprint</c> there.</summary>
    public static string? DefaultPath => Folder is { } folder ? Path.Combine(folder, "settings.json") : null;

    /// <summary>The folder of the user's settings; <c>DRUMPRINT_SETTINGS</c> names another.</summary>
    internal static string? Folder =>
        Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } chosen ? chosen
        : Environment.GetFolderPath(Environment.SpecialFolder.ApplicationData, Environment.SpecialFolderOption.DoNotVerify) is { Length: > 0 } folder ? Path.Combine(folder, "drumprint")
        : null;

    /// <summary>Which files a chain may name by these settings.</summary>
    public ReadPolicy Policy => new() { Folders = ReadFrom };

    /// <summary>Reads the settings; those of a user who has written none when there is no such file.</summary>
    /// <param name="path">The file; null for where it lies by itself.</param>
    /// <exception cref="UsageException">It holds something else, or cannot be read.</exception>
    public static UserSettings Read(string? path = null)
    {
        path ??= DefaultPath;
        if (path is null || !File.Exists(path))
        {
            return new UserSettings();
        }

        try
        {
            using var json = JsonDocument.Parse(RegularFile.ReadAll(path, MostBytes), Reading);
            return Of(json.RootElement, path);
        }
        catch (JsonException e)
        {
            throw new UsageException(FormattableString.Invariant($"{path}:{e.LineNumber + 1}: this is not JSON, or a key stands there twice. It holds {{ {Line("/folder")} }}."));
        }
        catch (InvalidOperationException)
        {
            // The runtime finds this out where a text is read.
            throw new UsageException($"{path}: a text in it is not valid UTF-8, or an escape stands for half a character. Save the file as UTF-8.");
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            throw new UsageException($"{path}: your settings cannot be read: {FileReason.Of(e)}.");
        }
    }

    /// <summary>The line that allows a folder.</summary>
    internal static string Line(string folder) => $"\"{ReadFromKey}\": [\"{JsonEncodedText.Encode(folder, System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"]";

    private static UserSettings Of(JsonElement root, string path)
    {
        if (root.ValueKind != JsonValueKind.Object)
        {
            throw new UsageException($"{path}: settings are a group of keys in {{ }}.");
        }

        var settings = new UserSettings();
        foreach (var member in root.EnumerateObject())
        {
            settings = member.Name switch
            {
                ReadFromKey => settings with { ReadFrom = Folders(member.Value, path) },
                ContactKey => settings with { Contact = Words(member, path) },
                CreditKey => settings with { Credit = Words(member, path) },
                _ => throw new UsageException($"{path}: there is no setting '{member.Name}'. There are {ReadFromKey}, {ContactKey} and {CreditKey}."),
            };
        }

        return settings;
    }

    private static string Words(JsonProperty member, string path) =>
        member.Value.ValueKind == JsonValueKind.String && member.Value.GetString() is { Length: > 0 and <= LongestLine } text && !text.Any(char.IsControl)
            ? text
            : throw new UsageException(FormattableString.Invariant($"{path}: {member.Name} is one line of text in quotes, of up to {LongestLine} characters."));

    private static List<string> Folders(JsonElement value, string path)
    {
        List<JsonElement> items = value.ValueKind == JsonValueKind.Array ? [.. value.EnumerateArray()] : [value];
        return items.All(i => i.ValueKind == JsonValueKind.String && Path.IsPathFullyQualified(i.GetString()!) && !i.GetString()!.Contains('\0', StringComparison.Ordinal))
            ? [.. items.Select(i => i.GetString()!)]
            : throw new UsageException($"{path}: {ReadFromKey} is a list of folders by their whole paths, such as [\"{(OperatingSystem.IsWindows() ? "D:/takes" : "/home/me/takes")}\"].");
    }
}
