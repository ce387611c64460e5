using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Tickets;

namespace DrumPrint.Diff;

/// <summary>Finds what two chains share under different names, so that a new name is told as that and not as everything anew.</summary>
internal static class Renames
{
    /// <summary>Tracks and impulses by their file, buses by what they do.</summary>
    /// <param name="a">The chain before.</param>
    /// <param name="b">The chain now.</param>
    /// <param name="areWhole">Whether both are whole. A chain cut down to one print does not say whether the old name is still
    /// there beside the new one. Then only what is the same in every setting counts.</param>
    public static IReadOnlyList<Rename> Between(Chain a, Chain b, bool areWhole)
    {
        var found = new List<Rename>();
        Pair(found, RenamedKind.Track, a.Tracks, b.Tracks, t => t.Name, t => areWhole ? string.Join('\n', t.Files) : t with { Name = "", Line = 0 });
        Pair(found, RenamedKind.Impulse, a.Impulses, b.Impulses, i => i.Name, i => areWhole ? i.File : i with { Name = "", Line = 0 });

        // Buses feed one another: each that is found may show which the next one is.
        bool goesOn;
        do
        {
            goesOn = Buses(found, b, In(a, found), areWhole);
        }
        while (goesOn);

        var sources = Sources(a);
        return [.. found.Where(r => r.Kind == RenamedKind.Impulse || !sources.Contains(r.To))];
    }

    /// <summary>A chain with the new names throughout.</summary>
    public static Chain In(Chain chain, IReadOnlyList<Rename> renames)
    {
        if (renames.Count == 0)
        {
            return chain;
        }

        var sources = Map(renames.Where(r => r.Kind != RenamedKind.Impulse));
        var impulses = Map(renames.Where(r => r.Kind == RenamedKind.Impulse));
        return chain with
        {
            Tracks = [.. chain.Tracks.Select(t => t with { Name = Now(sources, t.Name) })],
            Impulses = [.. chain.Impulses.Select(i => i with { Name = Now(impulses, i.Name) })],
            Buses = [.. chain.Buses.Select(b => b with
            {
                Name = Now(sources, b.Name),
                Feeds = [.. b.Feeds.Select(f => f with { Source = Now(sources, f.Source) })],
                Stages = [.. b.Stages.Select(s => In(s, sources, impulses))],
                OffFeeds = [.. b.OffFeeds.Select(f => f with { What = f.What with { Source = Now(sources, f.What.Source) } })],
                OffStages = [.. b.OffStages.Select(s => s with { What = In(s.What, sources, impulses) })],
            })],
            Prints = [.. chain.Prints.Select(p => p with { Bus = Now(sources, p.Bus) })],
            DrumBus = [.. chain.DrumBus.Select(s => In(s, sources, impulses))],
            OffDrumBus = [.. chain.OffDrumBus.Select(s => s with { What = In(s.What, sources, impulses) })],
        };
    }

    /// <summary>What was recorded of tracks or impulses, under the new names.</summary>
    public static IReadOnlyList<RecordedInput>? In(IReadOnlyList<RecordedInput>? inputs, IReadOnlyList<Rename> renames, RenamedKind kind)
    {
        var names = Map(renames.Where(r => r.Kind == kind));
        return inputs?.Select(i => i with { Name = Now(names, i.Name) }).ToList();
    }

    private static Stage In(Stage stage, Dictionary<string, string> sources, Dictionary<string, string> impulses) => stage with
    {
        Key = stage.Key is { } key ? Now(sources, key) : null,
        Settings = Settings.Of(
            stage.Definition.Parameters,
            stage.Definition.Parameters
                .Select(p => (Parameter: p, Value: p is ImpulseParameter impulse ? Now(impulses, stage.Settings[impulse]) : stage.Settings.Raw(p)))
                .Where(v => v.Value is not null)
                .Select(v => (v.Parameter, v.Value!))),
    };

    // The same in every setting; then, in whole chains, with the same feeds and the same kinds of processors.
    private static bool Buses(List<Rename> found, Chain b, Chain a, bool areWhole) =>
        Pair(found, RenamedKind.Bus, a.Buses, b.Buses, x => x.Name, x => Text(x, b))
        || (areWhole && Pair(found, RenamedKind.Bus, a.Buses, b.Buses, x => x.Name, Build));

    private static bool Pair<T>(List<Rename> found, RenamedKind kind, IReadOnlyList<T> a, IReadOnlyList<T> b, Func<T, string> name, Func<T, object> likeness)
    {
        var (before, now) = (a.Select(name).ToHashSet(StringComparer.Ordinal), b.Select(name).ToHashSet(StringComparer.Ordinal));
        var gone = Singles(a.Where(x => !now.Contains(name(x))), likeness);
        var come = Singles(b.Where(y => !before.Contains(name(y))), likeness);
        var pairs = gone.Where(g => come.ContainsKey(g.Key)).Select(g => new Rename(kind, name(g.Value), name(come[g.Key]))).ToList();
        found.AddRange(pairs);
        return pairs.Count > 0;
    }

    // Of things that are alike none can be told from the other.
    private static Dictionary<object, T> Singles<T>(IEnumerable<T> things, Func<T, object> likeness) =>
        things.GroupBy(likeness).Where(g => g.Count() == 1).ToDictionary(g => g.Key, g => g.Single());

    private static string Text(Bus bus, Chain shell) =>
        ChainWriter.Canonical(shell with { Tracks = [], Impulses = [], Buses = [bus with { Name = "" }], Prints = [], DrumBus = [], OffDrumBus = [] });

    private static string Build(Bus bus) =>
        string.Join('\n', bus.Feeds.Select(f => f.Source).Order(StringComparer.Ordinal).Append("").Concat(bus.Stages.Select(s => s.Definition.Key)));

    private static HashSet<string> Sources(Chain chain) => [.. chain.Tracks.Select(t => t.Name), .. chain.Buses.Select(b => b.Name)];

    private static Dictionary<string, string> Map(IEnumerable<Rename> renames) => renames.ToDictionary(r => r.From, r => r.To, StringComparer.Ordinal);

    private static string Now(Dictionary<string, string> names, string name) => names.GetValueOrDefault(name, name);
}
