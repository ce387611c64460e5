using DrumPrint.Comparing.Pairs;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Targets;

/// <summary>Compares two folders or tickets of prints: pairs by number and name.</summary>
internal static class FolderComparison
{
    /// <exception cref="UsageException">No print of one folder has its like in the other.</exception>
    public static ComparisonReport Compare(string pathA, string pathB, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var (a, b) = (PrintFolder.Read(pathA), PrintFolder.Read(pathB));
        var (nameA, nameB) = CompareTarget.Names(pathA, pathB);
        var notes = a.Notes.Union(b.Notes).ToList();
        var pairs = new List<(FolderPrint A, FolderPrint B)>();
        foreach (var print in a.Prints)
        {
            if (b.Prints.FirstOrDefault(p => IsLike(p, print)) is { } like)
            {
                pairs.Add((print, like));
            }
            else
            {
                notes.Add($"{print.Title} is in A only.");
            }
        }

        notes.AddRange(b.Prints.Where(p => !pairs.Any(q => q.B == p)).Select(p => $"{p.Title} is in B only."));
        if (pairs.Count == 0)
        {
            throw new UsageException($"No print of {pathA} has the number and name of one in {pathB}: {string.Join(", ", a.Prints.Select(p => p.Title))} here, {string.Join(", ", b.Prints.Select(p => p.Title))} there.");
        }

        var front = Front(pairs, options.Print);
        var compared = new List<Comparison>();
        for (var i = 0; i < pairs.Count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            var (one, like) = pairs[i];
            progress?.Report(new PrintProgress($"Comparing {one.Title}", (double)i / pairs.Count));
            var comparison = Pair(one, like, nameA, nameB, a, b, options);
            compared.Add((one, like) == front || (options.ForPage && !comparison.Null.IsIdentical && one.Kind != PrintKind.Click) ? comparison : comparison with { A = comparison.A with { Sound = null }, B = comparison.B with { Sound = null } });
        }

        var at = pairs.IndexOf(front);
        if (options.Print is null && compared[at].Null.IsIdentical && Differing(pairs, compared) is >= 0 and var other)
        {
            // Nobody compares to be told of the one print that stayed.
            at = other;
            compared[at] = Pair(pairs[at].A, pairs[at].B, nameA, nameB, a, b, options);
        }

        var main = compared[at];
        var opening = options.ForPage && options.Print is null ? Opening(pairs, compared, at) : at;
        return new ComparisonReport(main, [.. compared.Where(c => c != main)], [], notes)
        {
            Song = a.Name == b.Name ? a.Name : $"{a.Name}, {b.Name}",
            Opening = compared[opening],
            Overview = options.ForPage ? Overview(pairs[opening], nameA, nameB, a, b) : null,
        };
    }

    // The playing print that differs most from its like; the one in front where none does.
    private static int Opening(List<(FolderPrint A, FolderPrint B)> pairs, List<Comparison> compared, int front)
    {
        var changed = Enumerable.Range(0, pairs.Count)
            .Where(i => pairs[i].A.Kind is not (PrintKind.Rough or PrintKind.RoughWithBus or PrintKind.Click) && !compared[i].Null.IsIdentical)
            .ToList();
        return changed.Count > 0 ? changed.MaxBy(i => compared[i].Null.RmsDb) : front;
    }

    private static SongOverview Overview((FolderPrint A, FolderPrint B) pair, string nameA, string nameB, PrintFolder a, PrintFolder b) =>
        SongOverview.Of(pair.A.Title, SideFile.Open(pair.A.Path, nameA), SideFile.Open(pair.B.Path, nameB), a.Tempo ?? b.Tempo);

    // The second rough before all others; -1 where every print stayed.
    private static int Differing(List<(FolderPrint A, FolderPrint B)> pairs, List<Comparison> compared)
    {
        var withBus = pairs.FindIndex(p => p.A.Kind == PrintKind.RoughWithBus);
        return withBus >= 0 && !compared[withBus].Null.IsIdentical ? withBus : compared.FindIndex(c => !c.Null.IsIdentical);
    }

    private static Comparison Pair(FolderPrint one, FolderPrint other, string nameA, string nameB, PrintFolder a, PrintFolder b, ComparisonOptions options)
    {
        var sideA = SideFile.Open(one.Path, nameA, a.Tempo ?? b.Tempo);
        var sideB = SideFile.Open(other.Path, nameB, b.Tempo ?? a.Tempo);
        var comparison = PairMeasurement.Of(one.Title, sideA, sideB, PairMeasurement.Choose(sideA, sideB, options), options);
        return comparison with { IsWholeIdentical = PairMeasurement.IsWhole(comparison, sideA, sideB) };
    }

    private static (FolderPrint A, FolderPrint B) Front(List<(FolderPrint A, FolderPrint B)> pairs, string? wanted)
    {
        if (wanted is null)
        {
            var rough = pairs.FindIndex(p => p.A.Kind == PrintKind.Rough);
            return pairs[Math.Max(0, rough)];
        }

        var found = pairs.FindIndex(p => PrintWord.Fits(wanted, p.A.Number, p.A.Name, p.A.Kind, Path.GetFileName(p.A.Path)));
        return found >= 0
            ? pairs[found]
            : throw new UsageException($"--print {wanted}: both folders hold {string.Join(", ", pairs.Select(p => p.A.Title))}.");
    }

    private static bool IsLike(FolderPrint one, FolderPrint other) =>
        one.Number == other.Number && string.Equals(one.Name, other.Name, StringComparison.OrdinalIgnoreCase);
}
