using System.Globalization;
using DrumPrint.Files;

namespace DrumPrint.Diff;

/// <summary>Compares how prints were made, or are to be made.</summary>
public static class Differ
{
    /// <summary>Compares two tickets, chains, prints or folders; they need not be of one kind.</summary>
    /// <param name="a">One side, the earlier one.</param>
    /// <param name="b">The other.</param>
    /// <param name="reading">Which files chains may name; within the session when left out.</param>
    /// <exception cref="UsageException">A side holds nothing to compare.</exception>
    /// <exception cref="DrumPrintException">A side cannot be read.</exception>
    public static DiffReport Compare(string a, string b, ReadPolicy? reading = null)
    {
        var one = DiffTarget.Read(a, reading ?? ReadPolicy.Default);
        var other = DiffTarget.Read(b, reading ?? ReadPolicy.Default);
        var changes = new List<Change>();
        var pairs = Pairs(one, other, changes);
        foreach (var (x, y) in pairs)
        {
            changes.AddRange(ChainChanges.Of(x, y));
        }

        var measured = pairs.SelectMany(p => Measured(p.A, p.B)).OrderBy(m => m.A.Number).ToList();
        changes = Merged(changes);
        changes.AddRange(Unexplained(measured, changes));
        return new DiffReport(changes, measured, [.. Missing(one[0], other[0])]);
    }

    /// <summary>What changed between two whole runs, in order; sound that nothing explains too.</summary>
    internal static IReadOnlyList<Change> Between(Made a, Made b)
    {
        var changes = ChainChanges.Of(a, b).ToList();
        return [.. changes, .. Unexplained([.. Measured(a, b)], changes)];
    }

    private static List<(Made A, Made B)> Pairs(IReadOnlyList<Made> a, IReadOnlyList<Made> b, List<Change> changes)
    {
        if (a.Count == 1 && b.Count == 1 && a[0].Number is null && b[0].Number is null)
        {
            return [(a[0], b[0])];
        }

        // A print holds only what it needs, so the other side is cut down to that.
        var numbers = a.Concat(b).Select(m => m.Number).OfType<int>().Distinct().Order().ToList();
        var pairs = new List<(Made, Made)>();
        foreach (var number in numbers)
        {
            var x = a.Select(m => m.Only(number)).FirstOrDefault(m => m is not null);
            var y = b.Select(m => m.Only(number)).FirstOrDefault(m => m is not null);
            if (x is not null && y is not null)
            {
                pairs.Add((x, y));
            }
            else
            {
                changes.Add(new Change(string.Create(CultureInfo.InvariantCulture, $"print {number:00}"), x is null ? "added" : "left out"));
            }
        }

        return pairs;
    }

    // One change that many prints show is one change.
    private static List<Change> Merged(List<Change> changes) =>
    [
        .. changes.GroupBy(c => (c.Subject, c.Text)).Select(g => g.First() with { Reaches = [.. g.SelectMany(c => c.Reaches).Distinct().Order(StringComparer.Ordinal)] }),
    ];

    /// <summary>Prints that both sides measured, by the other side's order.</summary>
    internal static IEnumerable<MeasuredPair> Measured(Made a, Made b)
    {
        foreach (var print in b.Prints)
        {
            if (a.Prints.FirstOrDefault(p => p.Number == print.Number) is { } before)
            {
                yield return new MeasuredPair(
                    string.Create(CultureInfo.InvariantCulture, $"{print.Number:00} {print.Name}"),
                    before,
                    print,
                    (double)(a.Frames ?? 0) / a.Chain.Song.RateHz,
                    (double)(b.Frames ?? 0) / b.Chain.Song.RateHz);
            }
        }
    }

    private static List<Change> Unexplained(List<MeasuredPair> measured, List<Change> changes) =>
    [
        .. measured
            .Where(m => !m.IsSameAudio && !changes.Any(c => c.Reaches.Contains(m.Name)))
            .Select(m => new Change(m.Name, "other samples came out, although chain, raw files and version are the same") { Reaches = [m.Name] }),
    ];

    // What could not be told, and why.
    private static IEnumerable<string> Missing(Made a, Made b)
    {
        Made[] sides = [a, b];
        if (sides.All(s => s.Chain.Song.Tempo is not null) && sides.Where(s => s.Chain.Song.Tempo!.IsMissing).Select(TempoFile).Distinct().ToList() is { Count: > 0 } lost)
        {
            yield return $"There is no {string.Join(" and no ", lost)}, so it could not be told whether bars and tempi changed.";
        }

        if (sides.All(s => s.Tracks is null))
        {
            yield return "Both are chains: they say how to print, but not what the raw files held, how long the prints were or what was measured.";
            yield break;
        }

        foreach (var side in sides)
        {
            if (side.Tracks is null)
            {
                yield return $"{side.Source} is a chain: it says how to print, but not what the raw files held, how long the prints were or what was measured.";
            }
            else if (side.Prints.Count == 0)
            {
                yield return $"{side.Source} is a print without its ticket: what was measured is not known.";
            }
        }
    }

    private static string TempoFile(Made made) => Path.Combine(made.Chain.Folder, made.Chain.Song.Tempo!.File);
}
