using System.Globalization;
using DrumPrint.Printing.Reports;

namespace DrumPrint.Cli.Output;

/// <summary>Tells which prints are new, why, and what that did to the sound.</summary>
internal static class ChangeLines
{
    /// <summary>All lines; none of what was rendered when nobody looked what was there.</summary>
    public static IEnumerable<string> Of(PrintReport report) => [.. Rendered(report), .. Sounds(report)];

    private static IEnumerable<string> Rendered(PrintReport report)
    {
        var rendered = report.Prints.Where(p => !p.IsUnchanged).ToList();
        if (!report.LookedForChanges)
        {
            yield break;
        }

        yield return Counts(report, rendered);
        var reasons = rendered.Where(p => p.Because.Count > 0).GroupBy(p => string.Join("; ", p.Because));
        var sames = rendered.Where(p => p.SameSoundAs is not null).GroupBy(p => SameSound(p, report.Chain.Song.Version));
        foreach (var group in reasons.Concat(sames))
        {
            // What holds for all of them needs no numbers.
            yield return group.Count() == report.Prints.Count ? $"  {group.Key}" : $"  {Numbers(group)}: {group.Key}";
        }
    }

    private static string Counts(PrintReport report, List<PrintedFile> rendered)
    {
        var same = rendered.Count(p => p.SameSoundAs is not null);
        var unchanged = report.Prints.Count - rendered.Count;
        if (rendered.Count == 0)
        {
            return "Nothing was printed: every file is still, byte for byte, what this chain would print.";
        }

        if (same == 0 && unchanged == 0)
        {
            return "All of them were printed.";
        }

        (int Count, string Words)[] parts =
        [
            (rendered.Count - same, "printed"),
            (same, "written anew with the same sound as before"),
            (unchanged, "unchanged"),
        ];
        return string.Join(", ", parts.Where(p => p.Count > 0).Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Count} {p.Words}"))) + ".";
    }

    // A new version gives every file a new name, which is no news.
    private static string SameSound(PrintedFile print, int version) => print switch
    {
        { SameSoundAs: { } same } when same == print.FileName => "the same sound as before",
        { Earlier: { Pair.IsSameAudio: true } earlier } when earlier.Version != version => string.Create(CultureInfo.InvariantCulture, $"the same sound as in version {earlier.Version}"),
        _ => $"the same sound as {print.SameSoundAs}, under a new name",
    };

    // What the changes did to the sound, by the tickets.
    private static IEnumerable<string> Sounds(PrintReport report)
    {
        foreach (var version in report.Prints.Where(p => p.Earlier?.Change is not null).GroupBy(p => p.Earlier!.Version))
        {
            yield return version.Key == report.Chain.Song.Version
                ? "Beside the prints they replace:"
                : string.Create(CultureInfo.InvariantCulture, $"Beside version {version.Key}:");
            foreach (var group in version.GroupBy(p => p.Earlier!.Change))
            {
                yield return $"  {Numbers(group)}: {group.Key}";
            }
        }
    }

    private static string Numbers(IEnumerable<PrintedFile> prints) => string.Join(", ", prints.Select(p => p.Number.ToString("00", CultureInfo.InvariantCulture)));
}
