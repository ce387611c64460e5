using System.Globalization;
using DrumPrint.Delivering.Sheet;

namespace DrumPrint.Delivering;

/// <summary>The pieces of a sheet that tell what became of the delivery before, and of the mixer's wishes.</summary>
internal static class SheetChanges
{
    public static IReadOnlyList<SheetBlock> Of(DeliveryManifest manifest) => [.. Changes(manifest), .. Wishes(manifest)];

    /// <summary>What to replace, in a sentence or two.</summary>
    public static string ReplaceWords(DeliveryManifest manifest)
    {
        var changed = Numbers(manifest, DeliveredState.Changed);
        var added = Numbers(manifest, DeliveredState.New);
        var same = manifest.Files.Any(f => f.State == DeliveredState.Unchanged);
        var version = SheetWords.Text(manifest.Version);
        var before = SheetWords.Text(manifest.SinceVersion!.Value);
        return $"v{version}: "
            + (changed.Count == 0 ? "no file of before has other samples." : $"replace {string.Join(", ", changed)}.")
            + (same ? $" The rest is identical to v{before}." : "")
            + (added.Count == 0 ? "" : $" New: {string.Join(", ", added)}.");
    }

    /// <summary>Each wish beside what was changed for it.</summary>
    public static IEnumerable<SheetBlock> Wishes(DeliveryManifest manifest)
    {
        if (manifest.Wishes.Count == 0)
        {
            yield break;
        }

        yield return new HeadingBlock("What was asked for, and what was done");
        yield return SheetWords.Table(
            [new("Asked for", 4), new("In", 1), new("Done", 6), new("Said to it", 4)],
            [.. manifest.Wishes.Select(w => (IReadOnlyList<string>)[w.Text, $"v{SheetWords.Text(w.Version)}", w.Changes.Count == 0 ? "nothing was changed for it" : string.Join("; ", w.Changes), w.Answer ?? ""])]);
    }

    private static IEnumerable<SheetBlock> Changes(DeliveryManifest manifest)
    {
        if (manifest.SinceVersion is not { } since)
        {
            yield break;
        }

        yield return new HeadingBlock($"What changed since version {SheetWords.Text(since)}");
        yield return new TextBlock(ReplaceWords(manifest));
        var rows = new List<string>();
        Add("Changed", DeliveredState.Changed);
        Add("New", DeliveredState.New);
        Add("Unchanged, proved by the hash of their samples", DeliveredState.Unchanged);
        if (manifest.Withdrawn.Count > 0)
        {
            rows.Add($"Withdrawn: {string.Join(", ", manifest.Withdrawn)}");
        }

        yield return new ListBlock(rows);
        if (manifest.Changes.Count > 0)
        {
            yield return new ListBlock(manifest.Changes);
        }

        void Add(string word, DeliveredState state)
        {
            var names = manifest.Files.Where(f => f.State == state).Select(SheetWords.Label).ToList();
            if (names.Count > 0)
            {
                rows.Add($"{word}: {string.Join(", ", names)}");
            }
        }
    }

    private static List<string> Numbers(DeliveryManifest manifest, DeliveredState state) =>
        [.. manifest.Files.Where(f => f.State == state).Select(Number).Distinct()];

    private static string Number(DeliveredFile file) => file.Number is not { } number ? file.Name
        : number.ToString("00", CultureInfo.InvariantCulture) + file.Kind switch { DeliveredKind.Optional => " (an extra, fader down)", DeliveredKind.Dry => " (its dry twin)", _ => "" };
}
