using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class ExcerptFindingTests : IDisposable
{
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_track_that_rests_in_an_excerpt_is_noted_and_not_found_fault_with()
    {
        _session.Track("late.wav", Signals.Impulse(9600, 9000));
        var chain = _session.Chain("""
            "tracks": { "late": "late.wav" }, "buses": { "bus": { "from": { "late": 0 } } },
            "prints": [ { "number": 1, "name": "Late", "bus": "bus" } ]
            """);

        var report = _session.Print(chain, new PrintOptions { Only = ["Late"], ToS = 0.1 });

        Assert.Empty(report.Findings);
        Assert.Contains(report.Notes, n => n.Contains("silent in this stretch", StringComparison.Ordinal));
    }

    [Fact]
    public void A_track_that_rests_through_the_whole_song_is_found_fault_with()
    {
        _session.Track("never.wav", new double[9600]);
        var chain = _session.Chain("""
            "tracks": { "never": "never.wav" }, "buses": { "bus": { "from": { "never": 0 } } },
            "prints": [ { "number": 1, "name": "Never", "bus": "bus" } ]
            """);

        var report = _session.Print(chain, new PrintOptions { Only = ["Never"] });

        Assert.Contains("Check its feeds", Assert.Single(report.Findings), StringComparison.Ordinal);
        Assert.DoesNotContain(report.Notes, n => n.Contains("silent", StringComparison.Ordinal));
    }
}
