using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Language;

namespace DrumPrint.Comparing.Album;

/// <summary>Writes an album's report as one HTML file.</summary>
public static class AlbumPage
{
    /// <summary>Writes the page.</summary>
    /// <exception cref="AudioFileException">The file cannot be written.</exception>
    public static void Write(string path, AlbumReport report)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(report);
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            AlbumJson.Write(json, report);
        }

        PageText.Write(path, PageText.Part("album.html"), new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["title"] = PageText.Html($"{Words.Count(report.Songs.Count, "song")} side by side"),
            ["style"] = PageText.Part("page.css"),
            ["verdict"] = PageText.Html(report.Verdict),
            ["table"] = PageTables.Album(report),
            ["notes"] = PageTables.List(report.Notes),
            ["engine"] = EngineVersion.Text,
            ["data"] = Encoding.UTF8.GetString(stream.ToArray()),
            ["script"] = PageText.Script("text.js", "pictures.js", "album.js"),
        });
    }
}
