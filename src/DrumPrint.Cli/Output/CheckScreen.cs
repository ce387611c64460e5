using System.Globalization;
using DrumPrint.Checking;
using DrumPrint.Checking.Findings;

namespace DrumPrint.Cli.Output;

/// <summary>Shows what a check found: a table, then each finding with its fix.</summary>
internal static class CheckScreen
{
    private const int MostPlaces = 6;

    public static void Write(CheckReport report)
    {
        var console = Terminal.Screen();
        var open = report.Open.ToList();
        if (open.Count > 0)
        {
            var table = new ScreenTable().Text("").Text("Rule").Text("Track or file").Text("What was found").Text("Where", 1);
            foreach (var finding in open)
            {
                table.Row(Letter(finding.Severity), finding.Rule.Id, Visible.Line(finding.Track.Length > 0 ? finding.Track : "the set"), Visible.Line(finding.Sentence), ScreenTable.Lines(Places(report, finding)));
            }

            table.Draw(console, ", --json too");
            console.Line("What to do:");
            foreach (var rule in open.Select(f => f.Rule).Distinct())
            {
                console.Line($"  {rule.Id}  {rule.Fix} (told from: {rule.Threshold})");
            }

            var first = open[0];
            console.Line($"To sign a finding off, write into the chain, for instance: \"accepted\": [ {Sign(first)} ]");
        }

        foreach (var finding in report.Findings.Where(f => f.AcceptedWhy is not null))
        {
            console.Line($"Signed off: {finding.Rule.Id} {finding.Track}: {finding.Sentence} ({finding.AcceptedWhy})");
        }

        foreach (var note in report.Notes)
        {
            console.Line(note);
        }

        console.Line(Summary(report));
    }

    private static string Sign(Finding finding) => $"{{ \"rule\": \"{finding.Rule.Id}\"{(finding.Track.Length > 0 ? $", \"track\": \"{finding.Track}\"" : "")}, \"why\": \"your reason\" }}";

    private static string Summary(CheckReport report) => string.Create(
        CultureInfo.InvariantCulture,
        $"{report.Files} {(report.Files == 1 ? "file" : "files")} heard: {Count(report.Count(Severity.Fault), "fault")}, {Count(report.Count(Severity.Warning), "warning")}, {report.Count(Severity.Information)} for information, {report.Findings.Count - report.Open.Count()} signed off.");

    private static string Count(int count, string noun) => FormattableString.Invariant($"{count} {noun}{(count == 1 ? "" : "s")}");

    private static IEnumerable<string> Places(CheckReport report, Finding finding)
    {
        var places = finding.PlacesS.Take(MostPlaces).Select(report.Place);
        return finding.Count > MostPlaces && finding.PlacesS.Count > MostPlaces ? places.Append(FormattableString.Invariant($"and {finding.Count - MostPlaces} more")) : places;
    }

    private static string Letter(Severity severity) => severity switch
    {
        Severity.Fault => "F",
        Severity.Warning => "W",
        _ => "I",
    };
}
