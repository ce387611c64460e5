using DrumPrint.Chains;
using DrumPrint.Checking.Subjects;

namespace DrumPrint.Checking.Rules;

/// <summary>Which prints are heard together with what they are made from.</summary>
internal static class Parallel
{
    /// <summary>Whether another playing print hears the raw tracks of this one too.</summary>
    public static bool IsParallel(Chain chain, Print print)
    {
        var own = Tracks(chain, print.Bus);
        return !print.IsOptional && chain.Prints.Any(p => p != print && !p.IsOptional && Tracks(chain, p.Bus).Overlaps(own));
    }

    private static HashSet<string> Tracks(Chain chain, string bus) =>
        BusTree.Above(chain, bus).SelectMany(b => b.Feeds.Select(f => f.Source)).Where(n => chain.Tracks.Any(t => t.Name == n)).ToHashSet(StringComparer.Ordinal);
}
