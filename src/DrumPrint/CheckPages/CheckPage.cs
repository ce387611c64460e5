using System.Globalization;
using System.Text;
using DrumPrint.Audio;
using DrumPrint.Checking;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Pictures;
using DrumPrint.Comparing;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.CheckPages;

/// <summary>Writes a check as one HTML file: what was found, by weight, track and place, each with a picture of the sound. It plays nothing.</summary>
public static class CheckPage
{
    private const string Folder = "DrumPrint.CheckPages";
    private const int MostPlaces = 40;
    private const string SignedOff = "signed-off";

    private static readonly (string Id, string Title)[] Parts = [("fault", "Faults"), ("warning", "Warnings"), ("information", "For information"), (SignedOff, "Signed off")];

    /// <summary>Writes the page.</summary>
    /// <param name="path">Where; a page that is there is replaced.</param>
    /// <param name="report">A check with pictures.</param>
    /// <exception cref="AudioFileException">The file cannot be written.</exception>
    public static void Write(string path, CheckReport report) => Write(path, report, FileSteps.Plain);

    /// <summary>The same, written by given steps.</summary>
    internal static void Write(string path, CheckReport report, FileSteps steps)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(report);
        PageText.Write(path, PageText.Part("check.html", Folder), new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["title"] = PageText.Html($"Check of {report.Song}"),
            ["style"] = PageText.Part("page.css"),
            ["own-style"] = PageText.Part("check.css", Folder),
            ["target"] = PageText.Html($"Check of {report.Target}"),
            ["song"] = PageText.Html(report.Song),
            ["verdict"] = PageText.Html(Verdict(report)),
            ["overview"] = Overview(report),
            ["findings"] = string.Concat(Parts.Select(p => Part(report, p.Id, p.Title))),
            ["notes"] = report.Notes.Count == 0 ? "" : $"<section aria-labelledby=\"notes-title\"><h2 id=\"notes-title\">Of the check itself</h2><ul id=\"notes\">{string.Concat(report.Notes.Select(n => $"<li>{PageText.Html(n)}</li>"))}</ul></section>\n",
            ["engine"] = EngineVersion.Text,
        }, steps);
    }

    private static string Verdict(CheckReport report)
    {
        var signed = report.Findings.Count - report.Open.Count();
        var open = $"{Words.Count(report.Count(Severity.Fault), "fault")}, {Words.Count(report.Count(Severity.Warning), "warning")}, {report.Count(Severity.Information)} for information, {signed} signed off.";
        return $"{Words.Count(report.Files, "file")} heard: {open}{(report.NeedsALook ? "" : " Nothing stands in the way of a delivery.")}";
    }

    private static string Overview(CheckReport report)
    {
        if (report.Findings.Count == 0)
        {
            return "";
        }

        var rows = report.Findings.Select((f, i) => $"<tr><td>{Capital(Weight(f))}</td><td><a href=\"#f{i}\">{f.Rule.Id}</a></td><td>{PageText.Html(Track(f))}</td><td class=\"what\">{PageText.Html(f.Rule.Title)}</td></tr>");
        return $"<section aria-labelledby=\"all-title\"><h2 id=\"all-title\">All of it</h2><div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"All findings\"><table class=\"overview\"><thead><tr><th scope=\"col\">Weight</th><th scope=\"col\">Rule</th><th scope=\"col\">Track or file</th><th scope=\"col\" class=\"what\">What</th></tr></thead><tbody>{string.Join('\n', rows)}</tbody></table></div></section>\n";
    }

    private static string Part(CheckReport report, string id, string title)
    {
        var found = report.Findings.Select((f, i) => (Finding: f, Index: i)).Where(x => Id(x.Finding) == id).ToList();
        if (found.Count == 0)
        {
            return "";
        }

        var html = new StringBuilder($"<section aria-labelledby=\"{id}\"><h2 id=\"{id}\">{title}</h2>\n");
        foreach (var track in found.GroupBy(x => x.Finding.Track, StringComparer.Ordinal))
        {
            html.Append(CultureInfo.InvariantCulture, $"<h3 class=\"track\">{PageText.Html(Track(track.First().Finding))}</h3>\n");
            if (report.Pictures?.Files.GetValueOrDefault(track.Key) is { } whole)
            {
                html.Append(Figure(report, whole, "whole", $"{whole.File}, all of it"));
            }

            foreach (var (finding, index) in track.OrderBy(x => x.Finding.PlacesS.DefaultIfEmpty().Min()).ThenBy(x => x.Index))
            {
                html.Append(Article(report, finding, index, id));
            }
        }

        return html.Append("</section>\n").ToString();
    }

    private static string Article(CheckReport report, Finding finding, int index, string id)
    {
        var html = new StringBuilder($"<article class=\"finding {id}\" id=\"f{index}\"><h4>{finding.Rule.Id} {PageText.Html(finding.Rule.Title)}</h4>\n<p>{PageText.Html(finding.Sentence)}</p>\n");
        var pictures = report.Pictures?.Places[index] ?? [];
        if (pictures.Count > 0)
        {
            html.Append(CultureInfo.InvariantCulture, $"<div class=\"pictures\">{string.Concat(pictures.Select(p => Figure(report, p, "", report.Place(p.MarksS[0]))))}</div>\n");
        }

        if (finding.PlacesS.Count > pictures.Count)
        {
            var more = finding.PlacesS.Skip(pictures.Count).Take(MostPlaces).Select(report.Place).ToList();
            var left = Math.Max(finding.Count, finding.PlacesS.Count) - pictures.Count - more.Count;
            html.Append(CultureInfo.InvariantCulture, $"<p class=\"hint\">{(pictures.Count > 0 ? "Also at" : "At")} {PageText.Html(string.Join(", ", more))}{(left > 0 ? $" and {left} more" : "")}.</p>\n");
        }

        if (finding.AcceptedWhy is { } why)
        {
            html.Append(CultureInfo.InvariantCulture, $"<p><strong>Signed off:</strong> {PageText.Html(why)}</p>\n");
        }
        else
        {
            html.Append(CultureInfo.InvariantCulture, $"<p><strong>What to do:</strong> {PageText.Html(finding.Rule.Fix)}</p>\n");
        }

        html.Append(CultureInfo.InvariantCulture, $"<p class=\"hint\">Measured: {PageText.Html(finding.Measured)}. Told from: {PageText.Html(finding.Rule.Threshold)} ({PageText.Html(finding.Rule.Source)}).</p>\n");
        if (finding.AcceptedWhy is null)
        {
            html.Append(CultureInfo.InvariantCulture, $"<details><summary>If it is meant</summary><p class=\"hint\">Write into the chain, with your reason: <code>\"accepted\": [ {PageText.Html(SignOff.Line(finding))} ]</code></p></details>\n");
        }

        return html.Append("</article>\n").ToString();
    }

    private static string Figure(CheckReport report, FindingPicture picture, string kind, string where)
    {
        var span = picture.ToS - picture.FromS;
        var length = span < 1 ? $"{Words.Number(1000 * span, 0)} ms" : $"{Words.Number(span, span < 10 ? 1 : 0)} s";
        var sides = picture.Lanes.Count > 1 ? ", left above right" : "";
        var said = $"Waveform of {picture.File} at {where}, {length}";
        var marks = kind.Length > 0 && picture.MarksS.Count > 0 ? $", {Words.Count(picture.MarksS.Count, "place")} marked" : "";
        return $"<figure class=\"{kind}\">{WaveDrawing.Of(picture, said)}<figcaption class=\"hint\">{PageText.Html($"{where}: {length}, {(kind.Length > 0 ? "mean level " : "")}to {Words.Number(picture.TopDb)} dBFS{sides}{marks}")}</figcaption></figure>\n";
    }

    private static string Id(Finding finding) => finding.AcceptedWhy is null ? CheckJson.Word(finding.Severity) : SignedOff;

    private static string Weight(Finding finding) => finding.AcceptedWhy is null ? CheckJson.Word(finding.Severity) : "signed off";

    private static string Track(Finding finding) => finding.Track.Length > 0 ? finding.Track : "the set";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
