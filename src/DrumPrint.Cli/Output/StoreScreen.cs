using System.Globalization;
using DrumPrint.Language;
using DrumPrint.Store;

namespace DrumPrint.Cli.Output;

/// <summary>Shows what a store holds.</summary>
internal static class StoreScreen
{
    public static void List(string folder, IReadOnlyList<StoreEntry> entries, IReadOnlyList<StoreLeftover> leftovers)
    {
        var console = Terminal.Screen();
        if (entries.Count == 0)
        {
            console.Line($"{folder} holds nothing that a print could use.");
            Left(console, leftovers);
            return;
        }

        foreach (var line in Summary(folder, entries))
        {
            console.Line(line);
        }

        Left(console, leftovers);
        var table = new ScreenTable().Text("Kept").Text("For").Figures("Channels", 2).Figures("Frames", 1).Figures("Size").Text("Key", 3);
        foreach (var entry in entries)
        {
            table.Row(
                entry.Kind switch
                {
                    StoreEntryKind.Signal => "signal",
                    StoreEntryKind.Print => "figures",
                    StoreEntryKind.Number => "number",
                    _ => "damaged",
                },
                Visible.Line(entry.Name),
                entry.Channels == 0 ? "" : entry.Channels.ToString(CultureInfo.InvariantCulture),
                entry.Frames == 0 ? "" : entry.Frames.ToString(CultureInfo.InvariantCulture),
                Size(entry.Bytes),
                entry.Key[..Math.Min(8, entry.Key.Length)]);
        }

        table.Draw(console);
    }

    // With what belongs to no entry, five lines at most.
    private static IEnumerable<string> Summary(string folder, IReadOnlyList<StoreEntry> entries)
    {
        yield return $"{Count(entries.Count)}, {Size(entries.Sum(e => e.Bytes))}, in {folder}";
        foreach (var kind in entries.GroupBy(e => e.Kind).OrderBy(k => k.Key))
        {
            var names = kind.Select(e => e.Name).Distinct(StringComparer.Ordinal).Count();
            yield return kind.Key switch
            {
                StoreEntryKind.Signal => $"  sound of {Words.Count(names, "bus", "buses")}, {Size(kind.Sum(e => e.Bytes))}: what takes long to compute",
                StoreEntryKind.Number => $"  {Words.Count(kind.Count(), "number", "numbers")}, {Size(kind.Sum(e => e.Bytes))}: found for what the chain asks for",
                StoreEntryKind.Print => $"  figures of {Words.Count(names, "print", "prints")}, {Size(kind.Sum(e => e.Bytes))}: peak, tail, loudness, hashes",
                _ => $"  {Words.Count(kind.Count(), "damaged entry", "damaged entries")}, {Size(kind.Sum(e => e.Bytes))}: drumprint store verify drops them",
            };
        }
    }

    public static void Verified(string folder, StoreCheck check, IReadOnlyList<StoreLeftover> leftovers)
    {
        var console = Terminal.Screen();
        foreach (var file in leftovers)
        {
            console.Line($"Belongs to no entry: {file.Place} ({Size(file.Bytes)})");
        }

        foreach (var entry in check.Dropped)
        {
            console.Line($"Damaged and dropped: {entry.Name} ({entry.Key[..Math.Min(8, entry.Key.Length)]}, {Size(entry.Bytes)})");
        }

        console.Line($"{Count(check.Whole)} whole, {check.Dropped.Count.ToString(CultureInfo.InvariantCulture)} damaged, in {folder}");
        Left(console, leftovers);
    }

    public static void Cleared(string folder, (int Files, long Bytes) cleared) =>
        Terminal.Screen().Line($"{Files(cleared.Files)} dropped, {Size(cleared.Bytes)} freed, in {folder}");

    private static void Left(Screen console, IReadOnlyList<StoreLeftover> leftovers)
    {
        if (leftovers.Count > 0)
        {
            console.Line($"{Files(leftovers.Count)} more, {Size(leftovers.Sum(f => f.Bytes))}, that no print uses. drumprint store clear removes those that killed runs left; delete by hand what others put there.");
        }
    }

    private static string Files(int files) => files == 1 ? "1 file" : string.Create(CultureInfo.InvariantCulture, $"{files} files");

    private static string Count(int entries) => entries == 1 ? "1 entry" : string.Create(CultureInfo.InvariantCulture, $"{entries} entries");

    private static string Size(long bytes) => bytes switch
    {
        < 1 << 10 => string.Create(CultureInfo.InvariantCulture, $"{bytes} B"),
        < 1 << 20 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1024.0:0.0} KB"),
        < 1 << 30 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1048576.0:0.0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1073741824.0:0.00} GB"),
    };
}
