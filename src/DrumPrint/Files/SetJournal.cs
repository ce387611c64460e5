using System.Text;
using System.Text.Json;

namespace DrumPrint.Files;

/// <summary>What a folder says while a set of files is taking its names: from this a later run finishes or undoes it.</summary>
/// <remarks>
/// A journal may come by mail like any other file. So it names nothing but files of its own folder (and of the one folder of
/// files that are kept), by bare names. These are files that go by a <see cref="TemporaryName"/>, and files that end as prints
/// and tickets do. It also bears a sum that only this user can write, see <see cref="JournalSeal"/>.
/// </remarks>
/// <param name="KeptFolder">Name of the folder of files that are kept, in the set's folder.</param>
/// <param name="Entries">The set.</param>
internal sealed record SetJournal(string KeptFolder, IReadOnlyList<SetEntry> Entries)
{
    /// <summary>Its name in the folder of the set.</summary>
    public const string FileName = ".drumprint.journal";

    private const int Format = 2;
    private const long MostBytes = 4 << 20;
    private const int MostEntries = 10_000;

    private static readonly string[] Ends = [".wav", ".ticket.json"];

    /// <summary>Whether a folder holds one, and so a set that is not whole.</summary>
    public static bool IsIn(string folder) => Path.Exists(PathIn(folder));

    public static string PathIn(string folder) => Path.Combine(folder, FileName);

    /// <summary>Writes it and brings it to the disk.</summary>
    public void Write(string folder, JournalSeal seal, FileSteps steps) => StagedFile.Write(PathIn(folder), ToText(seal.SumOf(ToText(null))), replaces: false, steps: steps);

    /// <summary>Reads the one of a folder.</summary>
    /// <returns>Null when it is none of this user's, or names what it must not.</returns>
    public static SetJournal? Read(string folder, JournalSeal seal)
    {
        var path = PathIn(folder);
        if (new FileInfo(path).LinkTarget is not null)
        {
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(RegularFile.ReadAll(path, MostBytes));
            var json = document.RootElement;
            if (json.GetProperty("journal").GetInt32() != Format)
            {
                return null;
            }

            var journal = new SetJournal(Required(json, "kept"), [.. json.GetProperty("set").EnumerateArray().Select(Entry)]);
            return journal.IsAllowed && seal.Holds(journal.ToText(null), Text(json, "sum")) ? journal : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            return null;
        }
    }

    // One name twice, or a file of somebody else's, is no journal of ours.
    private bool IsAllowed => Entries.Count is > 0 and <= MostEntries
        && ReceivedName.IsBare(KeptFolder)
        && Entries.All(e => IsTarget(e.Name) && IsTemporary(e.Staged) && IsTemporary(e.Before) && (e.KeptAs is null || IsTarget(e.KeptAs)))
        && Entries.All(e => (e.Staged is null) == (e.NewSha256 is null) && (e.OldSha256 is null) == (e.Before is null && e.KeptAs is null) && (e.Before is null || e.KeptAs is null))
        && Entries.Select(e => e.Name).Distinct(StringComparer.OrdinalIgnoreCase).Count() == Entries.Count
        && Entries.SelectMany(e => new[] { e.Staged, e.Before }).OfType<string>().GroupBy(n => n, StringComparer.Ordinal).All(g => g.Count() == 1);

    private static bool IsTemporary(string? name) => name is null || TemporaryName.Is(name);

    private static bool IsTarget(string name) => ReceivedName.IsBare(name) && Array.Exists(Ends, e => name.Length > e.Length && name.EndsWith(e, StringComparison.OrdinalIgnoreCase));

    private static SetEntry Entry(JsonElement json) => new(Required(json, "name"))
    {
        Staged = Text(json, "staged"),
        NewSha256 = Text(json, "new_sha256"),
        OldSha256 = Text(json, "old_sha256"),
        Before = Text(json, "before"),
        KeptAs = Text(json, "kept_as"),
    };

    private static string Required(JsonElement json, string key) => json.GetProperty(key).GetString() ?? throw new FormatException($"'{key}' is null.");

    private static string? Text(JsonElement json, string key) => json.TryGetProperty(key, out var value) ? value.GetString() : null;

    private string ToText(string? sum)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            json.WriteNumber("journal", Format);
            json.WriteString("kept", KeptFolder);
            json.WriteStartArray("set");
            foreach (var entry in Entries)
            {
                json.WriteStartObject();
                json.WriteString("name", entry.Name);
                Write(json, "staged", entry.Staged);
                Write(json, "new_sha256", entry.NewSha256);
                Write(json, "old_sha256", entry.OldSha256);
                Write(json, "before", entry.Before);
                Write(json, "kept_as", entry.KeptAs);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            Write(json, "sum", sum);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static void Write(Utf8JsonWriter json, string key, string? text)
    {
        if (text is not null)
        {
            json.WriteString(key, text);
        }
    }
}
