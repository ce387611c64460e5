using DrumPrint.Chains;

namespace DrumPrint.Session;

/// <summary>The buses whose sound a bus is made of. A key only steers, and is none of them.</summary>
internal static class FeedingBuses
{
    /// <summary>The bus itself, then those that feed it, the nearest first, each once.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="bus">Name of the bus.</param>
    public static IReadOnlyList<string> Of(Chain chain, string bus)
    {
        var buses = chain.Buses.ToDictionary(b => b.Name, StringComparer.Ordinal);
        var names = new List<string> { bus };
        var known = new HashSet<string>(StringComparer.Ordinal) { bus };
        for (var n = 0; n < names.Count; n++)
        {
            names.AddRange(buses[names[n]].Feeds.Select(f => f.Source).Where(s => buses.ContainsKey(s) && known.Add(s)));
        }

        return names;
    }
}
