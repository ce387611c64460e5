using System.Globalization;
using DrumPrint.Chains;

namespace DrumPrint.Diff;

/// <summary>Finds what changed between two tempo maps.</summary>
internal static class TempoChanges
{
    public static IEnumerable<string> Of(TempoMap a, TempoMap b)
    {
        if (a.File != b.File)
        {
            yield return ChangeWords.Moved("file", a.File, b.File);
        }

        if (a.IsMissing || b.IsMissing)
        {
            yield break;
        }

        foreach (var (one, other) in SideBySide.Of(a.Stretches, b.Stretches, (x, y) => x.FromBar == y.FromBar, (x, y) => x == y).Where(p => p.Item1 != p.Item2))
        {
            var (from, to) = ChangeWords.Apart(write => Text(one, write), write => Text(other, write));
            yield return $"{from} → {to}";
        }

        if (a.LastBar != b.LastBar)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"last bar {a.LastBar} → {b.LastBar}");
        }

        foreach (var (one, other) in SideBySide.Of(a.Sections, b.Sections, (x, y) => x.FromBar == y.FromBar || x.Name == y.Name, (x, y) => x == y).Where(p => p.Item1 != p.Item2))
        {
            yield return $"section {Place(one)} → {Place(other)}";
        }
    }

    private static string Text(TempoStretch? stretch, Func<double, string> write) => stretch is null
        ? "nothing"
        : string.Create(CultureInfo.InvariantCulture, $"bar {stretch.FromBar} {stretch.Beats}/{stretch.BeatUnit} at {write(stretch.Bpm)} bpm");

    private static string Place(Section? section) => section is null ? "nothing" : string.Create(CultureInfo.InvariantCulture, $"bar {section.FromBar} {section.Name}");
}
