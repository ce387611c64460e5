using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains;

/// <summary>Numbers that a print found for the goals of a chain.</summary>
internal static class FoundNumbers
{
    /// <summary>A chain with the numbers that were found for the same goals in the same places; the others stay open.</summary>
    /// <param name="chain">The chain as it is now.</param>
    /// <param name="printed">The chain as it was printed.</param>
    public static Chain From(Chain chain, Chain printed)
    {
        var buses = printed.Buses.ToDictionary(b => b.Name, StringComparer.Ordinal);
        return chain with
        {
            Buses = [.. chain.Buses.Select(b => buses.GetValueOrDefault(b.Name) is { } other ? b with { Stages = From(b.Stages, other.Stages) } : b)],
            DrumBus = From(chain.DrumBus, printed.DrumBus),
        };
    }

    /// <summary>A chain without any: each is looked for again.</summary>
    public static Chain Without(Chain chain) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b with { Stages = Without(b.Stages) })],
        DrumBus = Without(chain.DrumBus),
    };

    private static IReadOnlyList<Stage> From(IReadOnlyList<Stage> stages, IReadOnlyList<Stage> printed) =>
        [.. stages.Select((s, i) => i < printed.Count && printed[i].Definition == s.Definition ? From(s, printed[i]) : s)];

    private static Stage From(Stage stage, Stage printed)
    {
        foreach (var (parameter, sought) in stage.Settings.Wanted.Where(w => w.Value.Found is null).ToList())
        {
            if (printed.Settings.Raw(parameter) is Sought { Found: not null } other && sought.AsksAs(other))
            {
                stage = stage with { Settings = stage.Settings.With(parameter, sought with { Found = other.Found }) };
            }
        }

        return stage;
    }

    private static IReadOnlyList<Stage> Without(IReadOnlyList<Stage> stages) =>
        [.. stages.Select(s => s.Settings.Wanted.Aggregate(s, (stage, w) => stage with { Settings = stage.Settings.With(w.Parameter, w.Value with { Found = null }) }))];
}
