using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
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
        var sounds = report.Heard.Select(Busiest).ToList();
        var loudness = sounds.ConvertAll(SideMeasures.Loudness);
        var softest = loudness.Where(double.IsFinite).DefaultIfEmpty().Min();
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            AlbumJson.Write(json, report, more =>
            {
                more.WriteStartArray("audio");
                foreach (var (sound, lufs) in sounds.Zip(loudness))
                {
                    more.WriteStartObject();
                    more.WriteNumber("rate_hz", sound.RateHz);
                    more.WriteNumber("frames", sound.Frames);
                    more.WriteNumber("gain_db", double.IsFinite(lufs) ? softest - lufs : 0);
                    ComparisonPage.WriteSide(more, "side", sound, ComparisonPage.Scale(sound));
                    more.WriteEndObject();
                }

                more.WriteEndArray();
            });
        }

        PageText.Write(path, PageText.Part("album.html"), new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["title"] = PageText.Html($"{Words.Count(report.Songs.Count, "song")} side by side"),
            ["style"] = PageText.Part("page.css"),
            ["verdict"] = PageText.Html(report.Verdict),
            ["table"] = Table(report),
            ["notes"] = PageTables.List(report.Notes),
            ["engine"] = EngineVersion.Text,
            ["data"] = Encoding.UTF8.GetString(stream.ToArray()),
            ["audio"] = string.Join('\n', sounds.Select((s, i) => ComparisonPage.Script(i, "side", s))),
            ["script"] = PageText.Script("text.js", "sound.js", "audition.js", "pictures.js", "album.js"),
        });
    }

    // The same twelve seconds that a comparison would find.
    private static Sound Busiest(string path)
    {
        var side = SideFile.Open(path);
        var passage = Passage.Busiest(side, side.StartFrame, side.EndFrame, side.Tempo);
        return ComparisonPage.Listening(side.Read(passage.FromFrame, passage.Frames));
    }

    private static string Table(AlbumReport report) => PageTables.Table(
        [report.HasRough ? "LU against the rough" : "LUFS", .. report.Songs, "Moves by"],
        report.Prints.Select(p => (string[])[
            FormattableString.Invariant($"{p.Number:00} {p.Name}"),
            .. p.Cells.Select(c => c is null ? "none" : PageTables.Known(c.Level)),
            p.MoveLu is { } move ? Words.Number(move) : "",
        ]));
}
