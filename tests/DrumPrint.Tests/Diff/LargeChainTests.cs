using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Diff;

/// <summary>A received chain may be built to be slow.</summary>
public sealed class LargeChainTests : IDisposable
{
    // Four times as many buses may take a little more than four times the memory; each change looking at every bus took fourteen times.
    private const double MostGrowth = 6;

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Changes_of_many_buses_are_found_in_proportion_to_their_number()
    {
        Allocated(50);
        var (few, many) = (Allocated(300), Allocated(1200));

        Assert.InRange((double)many / few, 1, MostGrowth);
    }

    [Fact]
    public void Rows_too_long_to_lay_beside_each_other_are_held_place_by_place()
    {
        string[] a = [.. Enumerable.Range(0, 3000).Select(i => $"{i}")];
        string[] b = [.. a.Select(x => x == "7" ? "other" : x), "more"];

        var pairs = SideBySide.Of(a, b, (x, y) => y != "other", (x, y) => x == y);

        Assert.Equal(3002, pairs.Count);
        Assert.Equal([("6", "6"), ("7", null), (null, "other"), ("8", "8")], pairs.Skip(6).Take(4));
        Assert.Equal((null, "more"), pairs[^1]);
    }

    private long Allocated(int buses)
    {
        var (a, b) = (Wide(buses, -1), Wide(buses, -2));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var changes = ChainChanges.Of(Made.Of("a", a), Made.Of("b", b));
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.Equal(buses, changes.Count);
        Assert.All(changes, c => Assert.Equal(["01 Sum", "90 RoughPreBus"], c.Reaches));
        return allocated;
    }

    private Chain Wide(int buses, int levelDb)
    {
        var names = Enumerable.Range(0, buses).Select(i => string.Create(CultureInfo.InvariantCulture, $"b{i}")).ToList();
        return _session.Chain($$"""
            "tracks": { "a": "a.wav" },
            "buses": { {{string.Join(", ", names.Select(n => $"\"{n}\": {{ \"from\": {{ \"a\": {levelDb.ToString(CultureInfo.InvariantCulture)} }} }}"))}},
              "sum": { "from": { {{string.Join(", ", names.Select(n => $"\"{n}\": -60"))}} } } },
            "prints": [ { "number": 1, "name": "Sum", "bus": "sum" } ]
            """);
    }
}
