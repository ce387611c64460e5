using System.Globalization;
using DrumPrint.Delivering;
using DrumPrint.Language;

namespace DrumPrint.Cli.Output;

/// <summary>Tells of deliveries.</summary>
internal static class DeliverScreen
{
    public static void Write(DeliveryReport report)
    {
        var console = Terminal.Screen();
        foreach (var path in report.Written)
        {
            console.Line($"{path}");
        }

        var manifest = report.Manifest;
        var playing = manifest.Files.Count(f => f.Kind == DeliveredKind.Playing);
        var extras = manifest.Files.Count(f => f.Kind == DeliveredKind.Optional);
        console.Line(string.Create(CultureInfo.InvariantCulture, $"{manifest.Title}, version {manifest.Version}: {Words.Count(playing, "playing file")}{(extras == 0 ? "" : $" and {Words.Count(extras, "extra")}")}, {manifest.Files.Count} files in all."));
        if (report.Proof.Count > 0)
        {
            var plain = report.Proof.MaxBy(p => p.LeftDbfs)!;
            console.Line($"Read back, the playing files add up to the rough: under every pan law with its correction at most {Words.Number(plain.LeftDbfs)} dBFS is left.");
        }

        if (report.ReplaceWords is { } replace)
        {
            console.Line(replace);
            foreach (var change in manifest.Changes)
            {
                console.Line($"  {change}");
            }
        }

        foreach (var wish in manifest.Wishes)
        {
            console.Line($"Asked for: {wish.Text} {wish.Outcome}");
        }

        foreach (var note in report.Notes)
        {
            console.Line(note);
        }

        console.Line(Screen.HearingNote);
    }

    public static void Write(DeliveryCheck check, string folder)
    {
        var console = Terminal.Screen();
        foreach (var finding in check.Findings)
        {
            console.Line(finding.Text);
        }

        var manifest = check.Manifest;
        console.Line(check.IsWhole
            ? string.Create(CultureInfo.InvariantCulture, $"{folder}: {manifest.Title}, version {manifest.Version}, arrived whole: {manifest.Files.Count} files, each as it was delivered, and no other.{(manifest.IsPart ? $" It holds only what changed since version {manifest.SinceVersion}." : "")}")
            : string.Create(CultureInfo.InvariantCulture, $"{folder}: {manifest.Title}, version {manifest.Version}, is not as it was delivered: {Words.Count(check.Findings.Count, "finding")}."));
    }

    public static void Write(string path, IReadOnlyList<FileOrigin> origins)
    {
        var console = Terminal.Screen();
        foreach (var origin in origins)
        {
            console.Line(string.Create(CultureInfo.InvariantCulture, $"{path} is {origin.File.Name} of {origin.Manifest.Title}, version {origin.Manifest.Version} ({origin.Folder}; chain {origin.Manifest.ChainSha256[..16]}). {origin.How}"));
        }

        if (origins.Count == 0)
        {
            console.Line($"{path} is in none of these deliveries, neither whole nor cut at the end.");
        }
    }
}
