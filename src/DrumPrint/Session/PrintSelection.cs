using DrumPrint.Chains;

namespace DrumPrint.Session;

/// <summary>Every file a chain asks for, and which of them a run writes.</summary>
internal sealed class PrintSelection
{
    private PrintSelection(IReadOnlyList<PrintTarget> all, IReadOnlySet<PrintTarget> chosen)
    {
        All = all;
        Chosen = chosen;
    }

    /// <summary>By number.</summary>
    public IReadOnlyList<PrintTarget> All { get; }

    public IReadOnlySet<PrintTarget> Chosen { get; }

    public bool IsWhole => Chosen.Count == All.Count;

    /// <exception cref="UsageException">A name fits no print.</exception>
    public static PrintSelection Of(Chain chain, IReadOnlyList<string> only)
    {
        var all = Targets(chain).OrderBy(t => t.Number).ToList();
        if (only.Count == 0)
        {
            return new PrintSelection(all, all.ToHashSet());
        }

        var chosen = new HashSet<PrintTarget>();
        foreach (var word in only.SelectMany(w => all.Any(t => Fits(t, w, chain.Song)) ? [w] : w.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)))
        {
            var found = all.Where(t => Fits(t, word, chain.Song)).ToList();
            if (found.Count == 0)
            {
                throw new UsageException($"--only {word}: there is no such print. The chain has {string.Join(", ", all.Select(t => $"{t.Number:00} {t.Name}"))}.");
            }

            chosen.UnionWith(found);
        }

        return new PrintSelection(all, chosen);
    }

    private static bool Fits(PrintTarget target, string word, Song song) =>
        PrintWord.Fits(word, target.Number, target.Name, target.Kind, PrintFileName.Of(target.Number, target.Name, song));

    private static IEnumerable<PrintTarget> Targets(Chain chain)
    {
        foreach (var print in chain.Prints)
        {
            yield return new PrintTarget(print.IsOptional ? PrintKind.Optional : PrintKind.Playing, print.Number, print.Name, print, 0);
        }

        var plays = chain.Prints.Any(p => !p.IsOptional);
        if (plays && chain.Output.Rough is { } rough)
        {
            yield return new PrintTarget(PrintKind.Rough, rough.Number, rough.Name, null, rough.LevelDb);
        }

        if (plays && chain.DrumBus.Count > 0 && chain.Output.RoughWithBus is { } withBus)
        {
            yield return new PrintTarget(PrintKind.RoughWithBus, withBus.Number, withBus.Name, null, withBus.LevelDb);
        }

        if (chain.Output.Click is { } click)
        {
            yield return new PrintTarget(PrintKind.Click, click.Number, click.Name, null, click.LevelDb);
        }
    }
}
